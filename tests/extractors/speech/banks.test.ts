// Which bank, which head, which of two springs: said where the engine has several. Ways of speaking are common practice, no source.
import { describe, expect, test } from "vitest";
import { grammarsFor } from "../../../extractors/hearing/grammar/index.ts";
import { pathsOf } from "../../../extractors/hearing/grammar/walk.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { placeLabel } from "../../../shared/places/places.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { Spec } from "../../../shared/spec/spec.ts";

const VEE: Spec = { ...DEMO_SPEC, id: "vee", engine: { ...DEMO_SPEC.engine, arrangement: "vee", heads: "bank" } };
const START = grammarsFor(VEE, {})[0]?.start();

describe("an engine with two banks", () => {
  test.each([
    ["left head flatness two thou", "head, left bank", "0.002"],
    ["right bank head flatness three thou", "head, right bank", "0.003"],
    ["head two flatness two thou", "head, head 2", "0.002"],
    ["cam end float left bank four thou", "left bank", "0.004"],
    ["head gasket right bank forty thou", "right bank", "0.040"],
  ])("%s", (say, label, digits) => {
    const { readings, questions } = parse(say, {}, VEE);
    expect(questions).toEqual([]);
    expect(readings.map((reading) => [placeLabel(reading.place), reading.digits, reading.do])).toEqual([
      [label, digits, "accept"],
    ]);
    expect(START && [...pathsOf(START, say.split(" "))].length, "paths").toBeGreaterThan(0);
  });

  test("has no third head, and an engine in line has no bank", () => {
    expect(parse("head three flatness two thou", {}, VEE).questions).toMatchObject([{ code: "no_such_place" }]);
    expect(parse("cam end float left bank four thou", {}, DEMO_SPEC).questions).toMatchObject([{ code: "no_such_place" }]);
  });
});

test("tells the inner spring from the outer", () => {
  const { readings } = parse("inner spring intake one forty five pounds at one and a quarter", {}, DEMO_SPEC);
  expect(readings.map(({ place, quantity }) => [quantity, placeLabel(place)])).toEqual([
    ["valve_spring_force", "cylinder 1, intake, inner spring"],
  ]);
});
