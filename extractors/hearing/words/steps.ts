// How the names of the job's steps sound beyond the trade's own words, in CMU phones. Base forms: the CMU Pronouncing Dictionary, from memory.
import type { Pronunciations } from "./types.ts";

export const STEP_WORDS: Pronunciations = {
  balance: ["B AE L AH N S"],
  balancing: ["B AE L AH N S IH NG"],
  core: ["K AO R"],
  galleries: ["G AE L ER IY Z"],
  ignition: ["IH G N IH SH AH N"],
  injection: ["IH N JH EH K SH AH N"],
  plugs: ["P L AH G Z"],
  retorque: ["R IY T AO R K"],
  spark: ["S P AA R K"],
  wash: ["W AA SH", "W AO SH"],
  weights: ["W EY T S"],
};
