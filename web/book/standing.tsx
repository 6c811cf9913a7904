// How the build stands: how many figures are good, to watch, out and unknown; then each that is open, worst first, with its remedy.

import { placeKey, placeLabel } from "../../shared/places/places.ts";
import { type Finding, isOpen, VERDICTS, type Verdict } from "../../shared/rules/index.ts";
import { stepTitle } from "../../shared/steps/plan.ts";
import { Mark, Shape } from "../parts/mark.tsx";
import { MARK_WORDS, worstFirst } from "../parts/verdict.ts";
import { Writers } from "../parts/writers.tsx";
import { LeaveIt } from "./leave-it.tsx";
import { Because } from "./reading-line.tsx";

const MISSING: ReadonlySet<string> = new Set(["missing_reading", "missing_photo"]);
export const isMissing = (finding: Finding): boolean => MISSING.has(finding.rule) && finding.verdict === "unknown";

/** What the open step still wants: readings and pictures. */
export function missingAt(findings: readonly Finding[], step: string | undefined): Finding[] {
  return findings.filter((finding) => isMissing(finding) && finding.step === step && isOpen(finding));
}

export function Tally({ findings }: { findings: readonly Finding[] }) {
  const count = (verdict: Verdict) =>
    findings.filter((finding) => finding.verdict === verdict && (verdict === "pass" || (isOpen(finding) && !isMissing(finding))))
      .length;
  const toDo = findings.filter((finding) => isMissing(finding) && isOpen(finding)).length;
  return (
    <span class="tally">
      {VERDICTS.map((verdict) => (
        <span key={verdict} class={`mark-${verdict}`}>
          <Shape mark={verdict} />
          <b>{count(verdict)}</b> {MARK_WORDS[verdict]}
        </span>
      ))}
      <span class="mark-free">
        <Shape mark="free" />
        <b>{toDo}</b> to do
      </span>
    </span>
  );
}

export function Standing({ findings, step }: { findings: readonly Finding[]; step: string | undefined }) {
  const open = findings.filter((finding) => isOpen(finding) && !isMissing(finding)).sort(worstFirst);
  const closed = findings.filter((finding) => finding.verdict !== "pass" && !isOpen(finding));
  const missing = missingAt(findings, step);
  const elsewhere = findings.filter((finding) => isMissing(finding) && isOpen(finding) && finding.step !== step);
  return (
    <section class="standing" aria-label="How the build stands">
      <h2>Where it stands</h2>
      <Tally findings={findings} />
      {open.length === 0 ? <p class="quiet">Nothing is out and nothing to watch.</p> : <FindingList findings={open} />}
      {step === undefined ? null : (
        <>
          <h3>Still to do at {stepTitle(step)}</h3>
          {missing.length === 0 ? <p class="quiet">Nothing is missing.</p> : <MissingList findings={missing} />}
        </>
      )}
      {elsewhere.length === 0 ? null : (
        <details>
          <summary>{elsewhere.length} still to do at other steps</summary>
          <MissingList findings={elsewhere} />
        </details>
      )}
      {closed.length === 0 ? null : (
        <details>
          <summary>{closed.length} settled since or left as they are</summary>
          <FindingList findings={closed} />
        </details>
      )}
    </section>
  );
}

const keyOf = (finding: Finding) => `${finding.rule}|${placeKey(finding.place)}|${finding.why}`;

export function FindingList({ findings }: { findings: readonly Finding[] }) {
  return (
    <ul class="findings">
      {findings.map((finding) => (
        <li key={keyOf(finding)} class={`finding finding-${finding.verdict}`}>
          <p class="finding-head">
            <Mark mark={finding.verdict} /> <b>{placeLabel(finding.place) || "the engine"}</b>
          </p>
          <Because finding={finding} />
          {isOpen(finding) ? (
            <Writers>
              <LeaveIt finding={finding} />
            </Writers>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

function MissingList({ findings }: { findings: readonly Finding[] }) {
  return (
    <ul class="missing">
      {findings.map((finding) => (
        <li key={keyOf(finding)}>{finding.why}</li>
      ))}
    </ul>
  );
}
