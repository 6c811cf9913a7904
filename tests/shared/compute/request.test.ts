// Asking for a computation in text: spellings of units, defaults, and every refusal by its code.
import { describe, expect, it } from "vitest";
import { compute } from "../../../shared/compute/request.ts";

const ask = (text: string) => {
  const [id = "", ...pairs] = text.split(" ");
  return compute(id, pairs);
};

const answerTo = (text: string) => {
  const result = ask(text);
  if (!result.ok) throw new Error(result.error.say);
  return result.computed.value;
};

const digits = (value: number, count = 12): number => Number(value.toPrecision(count));

describe("units in values", () => {
  it.each([
    ["ring-gap-limit bore=3.905in per-inch=.003", 0.011715],
    ["ring-gap-limit bore=3.905in per-inch=.003", 0.011715],
    ["ring-gap-limit bore=99.187mm per-inch=0.003in/in", 0.297561],
    ["bore-wear largest=14.5thou standard=1thou", 0.0135],
    ["convert value=35ft-lb to=n.m", digits(35 * 0.3048 * 4.4482216152605)],
    ["convert value=12thou to=in", 0.012],
    ["displacement bore=99.187mm stroke=114.3mm cylinders=4", digits((Math.PI / 4) * 9.9187 ** 2 * 11.43 * 4, 11)],
    ["piston-to-head gasket=58thou recess=10thou protrusion=31thou", 0.037],
    ["convert value=1.2e-3in to=thou", 1.2],
    ["temperature-correction length=3.9054in temperature=29degC material=Cast-Iron", digits(3.9054 / (1 + 10.8e-6 * 9))],
    ["temperature-correction length=3.9054in temperature=84.2degF material=grey_iron", digits(3.9054 / (1 + 10.8e-6 * 9))],
    ["shim-clearance clearance=4.5thou remove-each-side=2thou", 0.0025],
  ])("%s", (text, value) => {
    expect(answerTo(text)).toBe(value);
  });

  it("an answer beyond all measure says nothing of its digits", () => {
    expect(ask("cranking-pressure compression-ratio=7 exponent=185")).not.toHaveProperty("computed.rounded");
  });

  it("a list may mix units", () => {
    expect(answerTo("ring-stagger-check positions=0,90deg,200")).toBe(90);
    expect(answerTo("spread readings=1in,25.4mm,0.5in")).toBe(0.5);
  });

  it("answers in the unit that was asked in, where it says so", () => {
    const result = ask("extension torque=40N_m length=350mm extension=50mm");
    expect(result).toMatchObject({ ok: true, computed: { value: 35, unit: "N_m" } });
  });
});

describe("refusals", () => {
  it.each([
    ["nothing-known bore=1", "unknown_computation"],
    ["displacement bore=1in stroke=1in cylinders=4 colour=red", "unknown_input"],
    ["displacement bore=1in stroke=1in", "missing_input"],
    ["displacement bore=1in bore=2in stroke=1in cylinders=4", "repeated_input"],
    ["displacement bore", "bad_pair"],
    ["displacement bore= stroke=1 cylinders=4", "bad_pair"],
    ["displacement bore=wide stroke=1in cylinders=4", "bad_number"],
    ["displacement bore=1e999in stroke=1in cylinders=4", "bad_number"],
    ["displacement bore=3parsec stroke=1in cylinders=4", "bad_unit"],
    ["displacement bore=3psi stroke=1in cylinders=4", "bad_unit"],
    ["displacement bore=3in stroke=4in cylinders=2.5", "out_of_domain"],
    ["bore-form readings=1in,2in,3in", "bad_count"],
    ["temperature-correction length=1in temperature=20degC material=cheese", "bad_choice"],
    ["temperature-correction length=1psi temperature=20degC material=steel", "out_of_domain"],
    ["convert value=35ft_lbf to=mm", "out_of_domain"],
    ["convert value=35 to=mm", "out_of_domain"],
    ["preload torque=35ft_lbf diameter=0 k=.2", "out_of_domain"],
    ["rod-bend deviation=.003in length=0", "out_of_domain"],
    ["tolerance-grade size=501mm grade=IT7", "out_of_domain"],
    ["tolerance-grade size=50mm grade=IT19", "out_of_domain"],
    ["next-oversize largest=3.99in standard=3.875in", "out_of_domain"],
    ["conformance value=1 uncertainty=-1 low=0 high=2", "out_of_domain"],
    ["conformance value=1 uncertainty=1 low=2 high=0", "out_of_domain"],
    ["compression-ratio bore=4in stroke=4in chamber=10cc protrusion=2in", "out_of_domain"],
  ])("%s: %s", (text, code) => {
    const result = ask(text);
    expect(result.ok).toBe(false);
    if (!result.ok) {
      expect(result.error.code).toBe(code);
      expect(result.error.say).toMatch(/^Expected .+/);
    }
  });

  it("names of the object's own prototype are no inputs", () => {
    expect(compute("displacement", ["constructor=1"])).toMatchObject({ ok: false, error: { code: "unknown_input" } });
  });
});
