// The verdict shown beside a reading: the worst of the findings that rest on it, or what its state says.
import type { LoggedReading } from "../../shared/build/index.ts";
import type { Finding, Verdict } from "../../shared/rules/index.ts";

/** What a mark can say. Each has a word and a shape of its own, so that colour is never needed. */
export type MarkName = Verdict | "waiting" | "struck" | "older" | "stale" | "free";

export const MARK_WORDS: Readonly<Record<MarkName, string>> = {
  pass: "good",
  warn: "watch",
  fail: "out",
  unknown: "can't say",
  waiting: "yes or no?",
  struck: "struck",
  older: "older",
  stale: "measure again",
  free: "no limit",
};

const RANK: readonly Verdict[] = ["fail", "warn", "unknown", "pass"];
/** Rules about what is not there: they rest on readings without judging them. */
const NOT_A_JUDGEMENT: ReadonlySet<string> = new Set(["missing_reading", "missing_photo"]);

/** Findings by the id of each event they rest on, worst first. */
export function findingsByEvent(findings: readonly Finding[]): Map<string, Finding[]> {
  const byEvent = new Map<string, Finding[]>();
  for (const finding of findings) {
    if (NOT_A_JUDGEMENT.has(finding.rule)) continue;
    for (const id of finding.evidence) {
      const list = byEvent.get(id);
      if (list === undefined) byEvent.set(id, [finding]);
      else list.push(finding);
    }
  }
  for (const list of byEvent.values()) list.sort(worstFirst);
  return byEvent;
}

/** Order for findings: worst first, those that are settled or accepted after the open ones. */
export function worstFirst(a: Finding, b: Finding): number {
  const closed = (finding: Finding) => (finding.settled !== undefined || finding.accepted !== undefined ? 1 : 0);
  return closed(a) - closed(b) || RANK.indexOf(a.verdict) - RANK.indexOf(b.verdict);
}

/** The mark of a reading, given the findings that rest on it, worst first. */
export function markOf(logged: LoggedReading, findings: readonly Finding[]): MarkName {
  if (logged.status === "waiting") return "waiting";
  if (logged.status === "struck" || logged.status === "rejected") return "struck";
  if (logged.status === "superseded") return "older";
  if (logged.stale !== undefined) return "stale";
  return findings[0]?.verdict ?? "free";
}
