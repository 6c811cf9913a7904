// Words that tell when in the job a reading was taken.
import type { Condition } from "../../../shared/spec/spec.ts";

export const CONDITION_WORDS: Readonly<Record<string, Condition>> = {
  "as found": "as_found",
  "before work": "as_found",
  finish: "machined",
  finished: "machined",
  "finish size": "machined",
  "finished size": "machined",
  "finish bore": "machined",
  "after honing": "machined",
  "after boring": "machined",
  "after grinding": "machined",
  "after machining": "machined",
  honed: "machined",
  trial: "trial",
  "trial fit": "trial",
  final: "final",
  finally: "final",
};
