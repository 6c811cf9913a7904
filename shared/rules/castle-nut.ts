// Castle nuts: one short of its hole may only go forward and only within its range; one backed off to line up is a fault.
import type { LoggedNote, LoggedReading } from "../build/build.ts";
import { type Joint, thicknessFor, torqueAfterTurn } from "../compute/castle-nut.ts";
import { degree, footPound, inch, ratio } from "../compute/measure.ts";
import { convertMeasure } from "../compute/units.ts";
import { type Place, placeMatches } from "../places/places.ts";
import type { RuleContext } from "./context.ts";
import {
  castleNuts,
  type Fastener,
  FOLLOW_MAKER,
  fastenerAt,
  nutOf,
  threadOf,
  torqueAt,
  torqueBefore,
  torqueIn,
} from "./fasteners.ts";
import { sheetFigure } from "./figures/pick.ts";
import type { Finding } from "./finding.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, figure } from "./text.ts";

const SOURCE =
  "FAA AC 43.13-1B, 7-40: start at the low torque, never pass the high, else change washer or nut; never back off: common practice";

const isBackedOff = ({ note }: LoggedNote): boolean => /back/i.test(note.state ?? note.text);
const isAligned = ({ note }: LoggedNote): boolean =>
  !/back/i.test(note.state ?? note.text) && /align|line/i.test(note.state ?? note.text);

/** The newest word on a nut's slot. */
function stateOf(context: RuleContext, nut: Place): LoggedNote | undefined {
  const notes = context
    .notes("castle_state")
    .filter(({ note }) => placeMatches(nutOf(note.place ?? {}), nut) && note.place !== undefined);
  return notes.sort((a, b) => b.order - a.order)[0];
}

function* subjectsOf(place: Place, context: RuleContext): Iterable<Subject> {
  const nut = nutOf(place);
  if (fastenerAt(nut, context.spec)?.castle === true) yield { place: nut, tag: "" };
}

function jointOf(fastener: Fastener, place: Place, context: RuleContext): Joint | undefined {
  const grip = sheetFigure(context.spec, `${place.fastener}_bolt_grip`);
  if (grip === undefined) return undefined;
  return {
    ...threadOf(fastener, context.spec),
    k: ratio(Number(fastener.k)),
    grip: inch(grip),
  };
}

interface Short {
  readonly fastener: Fastener;
  readonly nut: Place;
  readonly angle: LoggedReading;
  readonly torque: LoggedReading | undefined;
}

function shortOfSlot({ fastener, nut, angle, torque }: Short, context: RuleContext): Finding {
  if (angle.reading.value < 0) {
    return {
      rule: "castle_nut",
      verdict: "unknown",
      place: nut,
      value: angle.reading.value,
      limit: "0 deg short",
      unit: "deg",
      why: `Castle nut${at(nut)}: expected how far short of its hole it stands, got ${figure(angle.reading.value, "deg")}.`,
      source: SOURCE,
      remedy: "Say how far it is short of the next slot, going forward. Never back off.",
      evidence: [...angle.evidence],
    };
  }
  const short = degree(angle.reading.value);
  const off = thicknessFor(short, threadOf(fastener, context.spec).perInch);
  const joint = jointOf(fastener, nut, context);
  const high = Number(fastener.high);
  const from = torque === undefined ? Number(fastener.low) : torqueIn(torque, fastener.unit);
  const atSlot =
    joint === undefined
      ? undefined
      : convertMeasure(
          torqueAfterTurn(footPound(convertMeasure(from, fastener.unit, "ft_lbf")), short, joint),
          "ft_lbf",
          fastener.unit,
        );
  const low = Number(fastener.low);
  const mayAdvance = atSlot !== undefined && from >= low && atSlot <= high;
  const estimate =
    from < low
      ? `that is below the low torque of ${figure(low, fastener.unit)}, from which the slot is looked for`
      : atSlot === undefined
        ? "the torque at the slot is not known"
        : `about ${figure(Math.round(atSlot), fastener.unit)} at the slot by T = K F d, an estimate, ${mayAdvance ? "within" : "over"} the ${figure(high, fastener.unit)} allowed`;
  const stone = `stone ${figure(Math.ceil(off * 1e4) / 1e4, "in")} off the washer or the nut's face and tighten afresh`;
  return {
    rule: "castle_nut",
    verdict: mayAdvance ? "warn" : "fail",
    place: nut,
    value: angle.reading.value,
    limit: "0 deg short",
    unit: "deg",
    why: `Castle nut${at(nut)} stands ${figure(short, "deg")} short of its hole at ${figure(from, fastener.unit)}: ${estimate}.`,
    source: SOURCE,
    remedy:
      from < low
        ? `Tighten to ${figure(low, fastener.unit)} first, then look how far it is to the slot, and say both. Never back off. ${FOLLOW_MAKER}`
        : mayAdvance
          ? `Go forward to the slot, no further than ${figure(high, fastener.unit)}; if it will not line up, ${stone}. Never back off.`
          : `Do not go forward: ${stone} (${fastener.pitch === undefined ? `short / 360 / ${fastener.threadsPerInch} threads` : `${fastener.pitch} x short / 360`} = ${figure(off, "in")}). Never back off. ${FOLLOW_MAKER}`,
    evidence: [...angle.evidence, ...(torque?.evidence ?? [])],
  };
}

export const CASTLE_NUT: Rule = {
  id: "castle_nut",
  title: "Castle nuts line up going forward",
  subjects: (key, context) => {
    if (key.kind === "note" && key.name === "castle_state") {
      const said = nutOf(key.place);
      const known = [...castleNuts(context)].filter((nut) => placeMatches(said, nut));
      return known.length > 0 ? known.map((place) => ({ place, tag: "" })) : subjectsOf(said, context);
    }
    const isMine = key.kind === "reading" && (key.name === "castle_nut_angle" || key.name === "fastener_torque");
    return isMine ? subjectsOf(key.place, context) : [];
  },
  check: ({ place }, context) => {
    const fastener = fastenerAt(place, context.spec);
    if (fastener === undefined) return undefined;
    const torque = torqueAt(context, place);
    const angle = context.latest("castle_nut_angle", place);
    const state = stateOf(context, place);
    // A nut is tight again by a torque within its range and no lower than what it had: a lower one is what was left after backing off.
    const retightened = (order: number, utterance: string | undefined) => {
      if (torque === undefined || torque.order <= order || (utterance !== undefined && torque.utterance === utterance))
        return false;
      const [now, unit] = [torqueIn(torque, fastener.unit), fastener.unit];
      const before = torqueBefore(context, place, order);
      const least = Math.max(
        Number(fastener.low),
        before === undefined ? 0 : Math.min(torqueIn(before, unit), Number(fastener.high)),
      );
      return now >= least && now <= Number(fastener.high);
    };
    if (state !== undefined && isBackedOff(state) && !retightened(state.order, state.utterance)) {
      return {
        rule: "castle_nut",
        verdict: "fail",
        place,
        value: null,
        limit: null,
        unit: null,
        why: `Castle nut${at(place)} was backed off to line up: what it holds is no longer known.`,
        source: SOURCE,
        remedy: `Slack it right off, tighten afresh to ${figure(Number(fastener.low), fastener.unit)} or more, to no less than it had, and go forward only; else stone the washer.`,
        evidence: [state.id],
      };
    }
    // Lined up is a word about the slot, not about the torque: it clears nothing below the low one.
    const tight = torque === undefined || torqueIn(torque, fastener.unit) >= Number(fastener.low);
    const lined =
      angle !== undefined &&
      (retightened(angle.order, angle.utterance) ||
        (tight && state !== undefined && isAligned(state) && state.order > angle.order));
    if (angle !== undefined && angle.reading.value !== 0 && !lined) {
      return shortOfSlot({ fastener, nut: place, angle, torque }, context);
    }
    if (angle === undefined && state === undefined) return undefined;
    return {
      rule: "castle_nut",
      verdict: "pass",
      place,
      value: null,
      limit: null,
      unit: null,
      why: `Castle nut${at(place)} lined up${torque === undefined ? "" : ` at ${figure(torqueIn(torque, fastener.unit), fastener.unit)}`}.`,
      source: SOURCE,
      evidence: [...(torque?.evidence ?? []), ...(state === undefined ? [] : [state.id])],
    };
  },
};
