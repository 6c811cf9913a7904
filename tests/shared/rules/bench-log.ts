// A small log made by hand for the rules' tests: in come readings, photos and steps, out a folded build.
import { type Build, foldBuild } from "../../../shared/build/build.ts";
import type { BenchEvent, EventData, EventType } from "../../../shared/events/events.ts";
import type { Reading } from "../../../shared/events/reading.ts";
import type { Place } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { evaluate, type Finding } from "../../../shared/rules/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { Condition, Spec } from "../../../shared/spec/spec.ts";
import type { StepId } from "../../../shared/steps/steps.ts";

const BUILD = "01890000-0000-7000-8000-000000000000";

/** A reading as the parser would make it; the unit is the quantity's own unless given. */
export function reading(quantity: QuantityId, place: Place, value: number, extra: Partial<Reading> = {}): Reading {
  return {
    quantity,
    place,
    value,
    unit: QUANTITIES[quantity].unit,
    digits: String(value),
    implied: [],
    do: "accept",
    span: [0, 1],
    ...extra,
  };
}

export class BenchLog {
  readonly events: BenchEvent[] = [];

  constructor(spec: Spec = DEMO_SPEC) {
    this.add("build.opened", { name: "bench log", spec });
  }

  /** Append an event; its id tells its number. */
  add<T extends EventType>(type: T, data: EventData[T]): string {
    const n = this.events.length + 1;
    const id = `01890000-0000-7000-8000-${String(n).padStart(12, "0")}`;
    const at = new Date(Date.UTC(2026, 0, 5, 8, 0, n)).toISOString();
    this.events.push({ id, build: BUILD, at, device: "vise", deviceSeq: n, by: "bench", type, data } as unknown as BenchEvent);
    return id;
  }

  read(
    quantity: QuantityId,
    place: Place,
    value: number,
    extra: Partial<Reading> & { condition?: Condition; step?: StepId } = {},
  ): string {
    const { step, ...rest } = extra;
    return this.add("reading.taken", { reading: reading(quantity, place, value, rest), ...(step === undefined ? {} : { step }) });
  }

  photo(proof: string | undefined, place: Place, step?: StepId, statement?: string): string {
    return this.add("photo.taken", {
      photo: PHOTO,
      place,
      ...(proof === undefined ? {} : { proof }),
      ...(step === undefined ? {} : { step }),
      ...(statement === undefined ? {} : { statement }),
    });
  }

  fold(): Build {
    return foldBuild(this.events);
  }

  findings(): Finding[] {
    return evaluate(this.fold());
  }

  /** The findings of one rule (a limit's id for limits). */
  of(rule: string): Finding[] {
    return this.findings().filter((finding) => finding.rule === rule);
  }
}

const PHOTO: EventData["photo.taken"]["photo"] = {
  sha256: "0".repeat(64),
  bytes: 1000,
  type: "image/jpeg",
  width: 100,
  height: 80,
  orientation: 1,
  taken: { at: "2026-01-05T08:00:00Z", source: "server", zoneKnown: true },
  fingerprint: "0123456789abcdef",
  focus: 100,
  highlights: 0,
  shadows: 0,
};
