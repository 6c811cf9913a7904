// How many passes must agree before a sentence counts. Figures of the sentences below are made by hand.
import { describe, expect, it } from "vitest";
import { votesWanted } from "../../../extractors/hearing/doubt/agreement.ts";
import type { Setting } from "../../../extractors/hearing/doubt/odd.ts";
import { passOf } from "./passes.ts";

const KNOWN: Setting = { fitted: true };
const STRANGER: Setting = {};
const GAP = passOf("two top twelve thou");
const READ_OUT = passOf("three eight seven five one");
const COMMAND = passOf("scratch that", { command: true });
const NOTE = passOf("note");

describe("passes that must agree", () => {
  it.each([
    ["on a size, in quiet", GAP, 40, 200, STRANGER, 3],
    ["on a size, by a voice that is known", GAP, 40, 200, KNOWN, 3],
    ["in some noise", GAP, 20, 200, STRANGER, 4],
    ["in more noise", GAP, 12, 200, STRANGER, 5],
    ["in the same, by a voice that is known", GAP, 12, 200, KNOWN, 3],
    ["on a read-out in noise, by a voice that is known", READ_OUT, 20, 200, KNOWN, 4],
    ["on a read-out", READ_OUT, 40, 200, STRANGER, 4],
    ["on what fits badly", GAP, 40, 300, STRANGER, 4],
    ["on a command of a stranger's", COMMAND, 40, 200, STRANGER, 3],
    ["on a command by a voice that is known", COMMAND, 40, 200, KNOWN, 2],
    ["on such a command in noise", COMMAND, 20, 200, KNOWN, 3],
    ["on such a command in much noise", COMMAND, 12, 400, KNOWN, 3],
    ["on such a command that fits badly", COMMAND, 40, 400, KNOWN, 3],
    ["on such a command that fits worse", COMMAND, 40, 410, KNOWN, 4],
    ["on such a command in noise, that fits worse", COMMAND, 12, 410, KNOWN, 6],
    ["on a command of a stranger's, in noise", COMMAND, 20, 200, STRANGER, 4],
    ["on a free note by a voice that is known", NOTE, 40, 200, KNOWN, 2],
    ["on a long command", passOf("photo of rod two", { command: true }), 40, 200, KNOWN, 3],
  ] as const)("%s", (_what, winner, snr, strangeness, setting, wanted) => {
    expect(votesWanted({ winner, voters: [winner], agreement: 1 }, snr, strangeness, setting)).toBe(wanted);
  });
});
