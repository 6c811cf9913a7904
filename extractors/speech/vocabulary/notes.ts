// Statements that are facts rather than figures, as data: pattern -> kind and state.
import type { Note } from "../../../shared/events/reading.ts";

export interface Statement {
  readonly kind: Note["kind"];
  readonly state?: string;
  /** Matched against the lower-case text. */
  readonly pattern: RegExp;
}

export const STATEMENTS: readonly Statement[] = [
  {
    kind: "castle_state",
    state: "backed_off",
    pattern:
      /\bback(?:ed|ing)?\s+(?:it|that|the nut|the nuts|her|them|nut [ab])?\s*off\b|\bslackened (?:it |the nut )?(?:off |back )?to (?:line|get|reach)/,
  },
  {
    kind: "castle_state",
    state: "aligned",
    pattern:
      /\b(?:slot|slots|hole|holes|nut|castle)\b.*\b(?:lines? up|lined up|aligned|in line)\b|\b(?:lines? up|lined up|aligned)\b.*\b(?:slot|hole|nut)\b|^\s*(?:slot |nut |it )?(?:is |'s )?(?:aligned|lined up|lines up)\b/,
  },
  {
    kind: "cotter",
    state: "fitted",
    pattern:
      /\b(?:cotters?|cotter pins?|split pins?|caught her|split pin's)\b.*\b(?:in|fitted|fit|bent|new|done|installed|through|locked|over)\b|\bnew (?:cotters?|split pins?)\b|^\s*(?:cottered|cotter pinned|split pinned)\b|\b(?:fitted|bent|put in|installed) (?:the |a )?(?:new )?(?:cotter|split pin)/,
  },
  {
    kind: "part_changed",
    state: "changed",
    pattern:
      /\b(?:new|exchanged|changed|replaced|swapped|different|fitted a new|put in a new)\b.*\b(?:piston|pistons|rod|ring|rings|pin|bush|bushing|gasket|valve|spring|nut|bolt|crank|head|shell|guide|washer)\b/,
  },
  { kind: "crack", state: "none", pattern: /\bno cracks?\b/ },
  { kind: "crack", state: "found", pattern: /\b(?:crack|cracks|cracked|hairline)\b/ },
  {
    kind: "statement",
    pattern:
      /\bmarks? (?:match|matches|matched|line up|lined up|align|aligned|agree|are (?:matched|aligned|good|in line))\b|\bdippers?\b.*\b(?:to|toward|towards|faces|facing|leading|trailing|forward)\b|\b(?:arrow|notch|front mark|number|numbers|oil hole|scoop|oil holes)\b.*\b(?:to|toward|towards|faces|facing|forward)\b.*\b(?:front|rear|cam|camshaft|flywheel|off side|timing|intake|exhaust|side)\b|\b(?:clip|clips|circlip|circlips)\b.*\b(?:in|seated|fitted|home)\b/,
  },
  {
    kind: "inspection",
    state: "pass",
    pattern:
      /^\s*(?:(?:ok|okay|so|and|well)[\s,]+)*(?:the\s+)?(?:number|cylinder|main|rod|crankpin|pin|journal|piston|bore|valve|exhaust|intake|seat|guide|spring|ring|rings|head|block|crank|that one|this one|cam|lobe|chamber|exhaust valve|intake valve|deck|gear|gears)\b[^\d]*\b(?:is|are|looks?|looking|checks out|seems|passes|passed|inspected|checked)\s*(?:all )?(?:good|fine|ok|okay|clean|sound|perfect|right|great|passed|clear|as new|like new|no damage)?\s*$/,
  },
  {
    kind: "inspection",
    state: "fail",
    pattern:
      /^\s*(?:(?:ok|okay|so|and|well)[\s,]+)*(?:the\s+)?(?:number|cylinder|main|rod|crankpin|pin|journal|piston|bore|valve|exhaust|intake|seat|guide|spring|ring|rings|head|block|crank)\b[^\d]*\b(?:is|are|looks?)\s+(?:bad|no good|scored|worn|damaged|pitted|burnt|burned|scrap|rough|not good|broken|chipped)\s*$/,
  },
];

/** Words of which every statement has at least one: a cheap look before the patterns are tried. */
export const NOTE_KEYS: ReadonlySet<string> = new Set(
  (
    "back backed backing slackened slot slots hole holes nut castle line lines lined aligned cotter cotters split caught cottered new exchanged " +
    "changed replaced swapped different fitted crack cracks cracked hairline mark marks dipper dippers arrow notch front number numbers oil scoop " +
    "clip clips circlip circlips good fine ok okay clean sound perfect right great passed passes clear bad scored worn damaged pitted burnt burned " +
    "scrap rough broken chipped inspected checked out damage bent"
  ).split(" "),
);
