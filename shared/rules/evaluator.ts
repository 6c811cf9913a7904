// Findings kept up to date: a new event re-checks only the subjects its keys concern.
import { apply, type Build, type LoggedReading, type Touched } from "../build/build.ts";
import { draftOf } from "../build/draft.ts";
import type { BenchEvent } from "../events/events.ts";
import { type Place, placeKey } from "../places/places.ts";
import { RuleContext } from "./context.ts";
import { type Finding, toldFor } from "./finding.ts";
import { judgeReading } from "./judge.ts";
import { readKey, type TouchedKey } from "./key.ts";
import type { Rule, Subject } from "./rule.ts";
import { RULES } from "./rules.ts";

/** What one event did to the findings. */
export interface Change {
  readonly key: string;
  /** Undefined when there was none, or none is left. */
  readonly before: Finding | undefined;
  readonly after: Finding | undefined;
}

const byPlace = new Intl.Collator("en", { numeric: true });

export class Evaluator {
  readonly build: Build;
  readonly #rules: readonly Rule[];
  #context: RuleContext;
  /** One map a rule, so that a rule's findings stay together. */
  #findings: Map<string, Finding>[];
  /** How many subjects have been checked since the start: what the cost of an event is made of. */
  checked = 0;

  /** Evaluate a build as it stands; `below` is given by `draft` alone. */
  constructor(build: Build, rules: readonly Rule[] = RULES, below?: Evaluator) {
    this.build = build;
    this.#rules = rules;
    if (below !== undefined) {
      this.#context = new RuleContext(build, below.#context);
      this.#findings = below.#findings.map((found) => new Map(found));
      return;
    }
    this.#context = new RuleContext(build);
    this.#findings = rules.map(() => new Map());
    this.#checkAll();
  }

  /**
   * What would be found if some events more came: an evaluator of a draft of the build. Applying events there leaves this
   * build and these findings as they are. To be used before the next event is applied here.
   */
  draft(): Evaluator {
    return new Evaluator(draftOf(this.build), this.#rules, this);
  }

  /** Fold an event into the build and re-check what depends on it. */
  apply(event: BenchEvent): readonly Change[] {
    return this.update(event, apply(this.build, event));
  }

  /** Re-check what depends on an event that has just been folded elsewhere, given the keys the fold said it touched. */
  update(event: BenchEvent, touched: Touched): readonly Change[] {
    // An event that was folded before touches nothing, and is not indexed twice.
    if (touched.length === 0) return [];
    this.#context.note(event, touched);
    if (touched.some((key) => key === "spec" || key.startsWith("instrument:"))) return this.#checkAll();
    const done = this.#rules.map(() => new Set<string>());
    return touched.flatMap((key) => this.#recheck(readKey(key), done));
  }

  /** All findings with who accepted which: in the order of the rules, the sheet's limits and the places. */
  findings(): Finding[] {
    const limits = new Map(this.build.spec.limits.map((limit, index) => [limit.id, index]));
    const rank = (finding: Finding) => limits.get(finding.rule) ?? 0;
    return this.#findings.flatMap((found) =>
      [...found]
        .map(([id, finding]) => ({ rank: rank(finding), key: `${placeKey(finding.place)}|${id}`, finding }))
        .sort((a, b) => a.rank - b.rank || byPlace.compare(a.key, b.key))
        .map(({ finding }) => this.#withAcceptance(finding)),
    );
  }

  /** One reading held against its limits as it was read, whether or not a newer one stands: what a timeline shows beside it. */
  judge(logged: LoggedReading): Finding[] {
    try {
      return judgeReading(this.build, logged, this.#context);
    } catch (error) {
      return [unworkable("limits", logged.reading.place, error)];
    }
  }

  #withAcceptance(finding: Finding): Finding {
    if (finding.verdict === "pass") return finding;
    const key = placeKey(finding.place);
    const by = this.build.accepted.findLast((row) => row.rule === finding.rule && placeKey(row.place) === key);
    return by === undefined ? finding : { ...finding, accepted: `${by.by}: ${by.why}` };
  }

  #checkAll(): readonly Change[] {
    const before = this.#findings;
    this.#findings = this.#rules.map(() => new Map());
    const done = this.#rules.map(() => new Set<string>());
    for (const key of allKeys(this.build)) this.#recheck(readKey(key), done);
    return this.#rules.flatMap((rule, index) => {
      const [old, now] = [before[index] ?? new Map(), this.#findings[index] ?? new Map()];
      return [...new Set([...old.keys(), ...now.keys()])].map((key) => ({
        key: `${rule.id}|${key}`,
        before: old.get(key),
        after: now.get(key),
      }));
    });
  }

  /** `done` holds, by rule, the subjects that need no second check in one go over many keys. */
  #recheck(key: TouchedKey, done: readonly Set<string>[]): Change[] {
    const changes: Change[] = [];
    this.#rules.forEach((rule, index) => {
      const found = this.#findings[index];
      if (found === undefined) return;
      const seen = done[index] ?? new Set<string>();
      for (const subject of rule.subjects(key, this.#context)) {
        const id = `${subject.tag}|${placeKey(subject.place)}`;
        if (seen.has(id)) continue;
        seen.add(id);
        changes.push({ key: `${rule.id}|${id}`, ...this.#check(rule, subject, found, id) });
      }
    });
    return changes;
  }

  #check(rule: Rule, subject: Subject, found: Map<string, Finding>, id: string): Pick<Change, "before" | "after"> {
    this.checked += 1;
    const before = found.get(id);
    const after = this.#checked(rule, subject);
    if (after === undefined) found.delete(id);
    else found.set(id, after);
    return { before, after };
  }

  #checked(rule: Rule, subject: Subject): Finding | undefined {
    try {
      return toldFor(this.build.spec, () => rule.check(subject, this.#context));
    } catch (error) {
      return unworkable(rule.id, subject.place, error);
    }
  }
}

/** A sheet or a figure on which a rule cannot work is told at its place; all the others are judged as ever. */
function unworkable(rule: string, place: Place, error: unknown): Finding {
  const why = `It cannot be worked out: ${error instanceof RangeError ? error.message : "a fault of the rule itself"}.`;
  return { rule, verdict: "unknown", place, value: null, limit: null, unit: null, why, evidence: [] };
}

/** Every key that a build as it stands could have touched. */
function* allKeys(build: Build): Iterable<string> {
  for (const key of build.byKey.keys()) yield `reading:${key}`;
  for (const step of build.steps.keys()) yield `step:${step}`;
  for (const photo of build.photos.values()) yield `photo:${photo.proof ?? ""}|${placeKey(photo.place)}`;
  for (const note of build.notes) yield `note:${note.note.kind}|${placeKey(note.note.place ?? {})}`;
  for (const change of build.changes) yield `part:${change.part}|${placeKey(change.place)}`;
  for (const instrument of build.instruments.keys()) yield `instrument:${instrument}`;
  if (build.handedOver !== undefined) yield "handed_over";
}
