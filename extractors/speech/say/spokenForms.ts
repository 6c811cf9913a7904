// A value -> the ways a machinist may say it. Used by tests, by the hearing benchmark and, its first form, by the read-back.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { UNITS, type UnitId } from "../../../shared/units/units.ts";
import { decOf, shift, textOf } from "../numbers/decimal.ts";
import { cardinal, decimalWords, digitByDigit, fractionWords, inPairs, withDoubles } from "./numberWords.ts";

/** Decimal text without trailing zeros after the point. */
function trimmed(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** "13.5" -> "thirteen and a half", "0.5" -> "half a", "12" -> "twelve"; the unit's singular or plural is the caller's. */
function withUnit(count: string, one: string, many: string): string[] {
  const [whole = "0", tail = ""] = trimmed(count).split(".");
  const n = Number(whole);
  if (tail === "") return n === 1 ? [`one ${one}`, `a ${one}`] : [`${cardinal(n)} ${many}`];
  const part = { "5": "a half", "25": "a quarter", "75": "three quarters" }[tail];
  const forms: string[] = [];
  if (part !== undefined && n > 0) forms.push(`${cardinal(n)} and ${part} ${many}`);
  if (tail === "5" && n === 1) forms.push(`a ${one} and a half`);
  if (tail === "5" && n === 0) forms.push(`half a ${one}`);
  if (tail === "25" && n === 0) forms.push(`a quarter of a ${one}`);
  if (tail === "75" && n === 0) forms.push(`three quarters of a ${one}`);
  forms.push(`${decimalWords(`${whole}.${tail}`)} ${many}`);
  return forms;
}

/** Small lengths in inches: thou, tenths, thou and tenths, decimals. */
function smallInches(digits: string, bare: boolean): string[] {
  const dec = decOf(digits.replace("-", ""));
  if (dec === undefined) return [];
  const thou = trimmed(textOf(shift(dec, -3)));
  const tenths = trimmed(textOf(shift(dec, -4)));
  const forms: string[] = [];
  if (Number(thou) === 0) return ["zero"];
  if (Number(thou) >= 0.1 && /^\d+(\.(5|25|75|\d))?$/.test(thou)) forms.push(...withUnit(thou, "thou", "thou"));
  if (/^\d+$/.test(tenths)) {
    if (Number(tenths) < 100) forms.push(...withUnit(tenths, "tenth", "tenths"));
    const over = Number(tenths) % 10;
    const whole = Math.trunc(Number(tenths) / 10);
    if (over > 0 && whole > 0) {
      const tail = `${cardinal(over)} ${over === 1 ? "tenth" : "tenths"}`;
      forms.push(`${cardinal(whole)} thou ${tail}`, `${cardinal(whole)} thou and ${tail}`);
    }
  }
  const text = digits.replace("-", "");
  forms.push(decimalWords(text), decimalWords(text, "zero", "zero"), `${decimalWords(text)} inches`, text, `${text} in`);
  if (bare && /^\d+(\.5)?$/.test(thou) && Number(thou) >= 1) {
    forms.push(
      ...withUnit(thou, "", "")
        .map((form) => form.trim())
        .filter((form) => form !== "a" && !form.startsWith("a ")),
    );
  }
  return forms;
}

/** Sizes over an inch or read off a gauge: digit by digit, pairs, decimals, inches and thou. */
function readOuts(digits: string, point: boolean): string[] {
  const run = digits.replace(".", "").replace(/^0+/, "");
  const forms = [digitByDigit(run), digitByDigit(run, "zero"), decimalWords(digits), decimalWords(digits, "zero"), digits];
  const pairs = inPairs(run);
  if (pairs !== undefined) forms.push(pairs);
  const doubles = withDoubles(run);
  if (doubles !== undefined) forms.push(doubles);
  forms.push(run);
  const [whole = "0", tail = ""] = digits.split(".");
  if (point && Number(whole) > 0 && tail.length >= 3) forms.push(inchesAndThou(Number(whole), tail));
  return forms;
}

function inchesAndThou(whole: number, tail: string): string {
  const inches = `${cardinal(whole)} ${whole === 1 ? "inch" : "inches"}`;
  const thou = Number(tail.slice(0, 3));
  const tenths = Number(tail[3] ?? "0");
  const parts = [inches];
  if (thou > 0) parts.push(`${cardinal(thou)} thou`);
  if (tenths > 0) parts.push(`${thou > 0 ? "and " : ""}${cardinal(tenths)} ${tenths === 1 ? "tenth" : "tenths"}`);
  return parts.join(" ");
}

/** Units as said for plain figures, besides the unit table's own. */
const ALSO_SAID: Readonly<Partial<Record<UnitId, readonly string[]>>> = {
  cc: ["cc"],
  psi: ["psi", "pounds per square inch"],
  ft_lbf: ["foot pounds", "ft lb"],
  N_m: ["newton metres", "newton meters"],
  degC: ["celsius", "degrees celsius"],
  degF: ["fahrenheit"],
  um: ["microns"],
  mm: ["millimetres", "millimeters", "mm"],
};

function plain(digits: string, unit: UnitId): string[] {
  const text = digits.replace("-", "");
  const [whole = "0", tail = ""] = text.split(".");
  const n = Number(whole);
  const heads = tail === "" ? [cardinal(n), cardinal(n, false)] : [decimalWords(text), decimalWords(text, "zero", "zero")];
  if (tail === "" && n > 100 && n < 1000 && n % 100 >= 10) heads.push(`${digitByDigit(whole.slice(0, 1))} ${cardinal(n % 100)}`);
  const said = [...UNITS[unit].said.slice(n === 1 && tail === "" ? 0 : 1), ...(ALSO_SAID[unit] ?? [])];
  return [...heads, text].flatMap((head) => said.slice(0, 2).map((word) => `${head} ${word}`));
}

/**
 * Ways to say a value, plainest first. The sign's word is not in it: that is the quantity's to say.
 * @param digits decimal text in `unit`, with the digits to be kept ("3.8750")
 */
export function spokenForms(quantity: QuantityId, digits: string, unit: UnitId): string[] {
  const { scale } = QUANTITIES[quantity];
  let forms: string[];
  if (unit === "in" && scale === "inch_digits") forms = readOuts(digits, true);
  else if (unit === "in") {
    forms = smallInches(digits, scale === "thou");
    if (scale === "fraction") {
      const fraction = fractionWords(Number(digits));
      if (fraction !== undefined)
        forms.unshift(fraction, `${fraction}${/^(half|a |.* a )/.test(fraction) ? " inch" : " of an inch"}`);
    }
  } else forms = plain(digits, unit);
  return [...new Set(forms)];
}
