// An oversize or undersize that was decided on, against the worst of the whole set: it must clean up every one, not the one in hand.
import { minus, plus } from "../compute/measure.ts";
import type { RuleContext } from "./context.ts";
import { decideBore, decideGrind, type SizeDecision } from "./decisions.ts";
import { valueIn, within } from "./figures/pick.ts";
import { groundSet } from "./ground-set.ts";
import type { Rule, Subject } from "./rule.ts";
import { figure, sizeStep } from "./text.ts";

const SETS = ["bores", "mains", "crankpins"] as const;
type SetId = (typeof SETS)[number];

const SIZES: Readonly<Record<SetId, readonly string[]>> = {
  bores: ["bore_oversize", "bore_diameter", "score_depth"],
  mains: ["journal_undersize", "main_journal_diameter", "journal_out_of_round"],
  crankpins: ["journal_undersize", "crankpin_diameter", "journal_out_of_round"],
};

/** What is needed, from the sizes before the cut: bores and journals as found. */
function neededBy(set: SetId, context: RuleContext): SizeDecision | undefined {
  if (set === "bores")
    return within(context, "bore_diameter", {}, "as_found").length === 0 ? undefined : decideBore(context.build, context);
  return decideGrind(context.build, set, context, "as_found");
}

export const DECIDED_SIZE: Rule = {
  id: "decided_size",
  title: "The size decided on cleans up the whole set",
  subjects: (key) =>
    key.kind === "reading" ? SETS.filter((set) => SIZES[set].includes(key.name)).map((tag): Subject => ({ place: {}, tag })) : [],
  check: ({ tag }, context) => {
    const set = SETS.find((one) => one === tag);
    if (set === undefined) return undefined;
    const said = within(context, set === "bores" ? "bore_oversize" : "journal_undersize", {}).filter(
      (logged) => set === "bores" || groundSet(logged, context) === set,
    );
    const needed = neededBy(set, context);
    if (said.length === 0 || needed === undefined) return undefined;
    // The smallest step that was said is the one that may not be enough.
    const steps = said.map((logged) => Math.abs(valueIn(logged, "in")));
    const step = Math.min(...steps);
    const size =
      set === "bores"
        ? plus(needed.standard, step as typeof needed.standard)
        : minus(needed.standard, step as typeof needed.standard);
    const enough = set === "bores" ? size >= needed.needed : size <= needed.needed;
    const sign = set === "bores" ? "+" : "-";
    return {
      rule: "decided_size",
      verdict: enough ? "pass" : "fail",
      place: {},
      value: size,
      limit: `${figure(needed.needed, "in")} at ${set === "bores" ? "least" : "most"}`,
      unit: "in",
      why: `${sign}${sizeStep(step)} makes the ${set} ${figure(size, "in")}. ${needed.why}`,
      source:
        "smallest standard size at which all clean up: common practice of service manuals; TM 5-3805-262-34 for journals: grind all",
      ...(enough
        ? {}
        : {
            remedy:
              needed.step === undefined
                ? "No step of the sheet cleans up the worst: sleeve, build up or renew before anything is cut."
                : `Take the whole set to ${sign}${sizeStep(needed.step)} (${figure(needed.size ?? 0, "in")}), before anything is cut.`,
          }),
      evidence: [...new Set([...said.flatMap((logged) => logged.evidence), ...needed.evidence])],
    };
  },
};
