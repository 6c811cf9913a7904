// The bore map of a build: each cylinder's section as found and as finished, with its form in figures.

import { useState } from "preact/hooks";
import type { Build } from "../../shared/build/index.ts";
import { latest } from "../../shared/build/index.ts";
import type { Reading } from "../../shared/events/reading.ts";
import { AXES, DEPTHS } from "../../shared/places/places.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { isMetric, nominalsIn } from "../../shared/spec/sizes.ts";
import type { Condition } from "../../shared/spec/spec.ts";
import { convert } from "../../shared/units/convert.ts";
import { UNITS } from "../../shared/units/units.ts";
import type { BuildPageProps } from "../app.tsx";
import { Because } from "../book/reading-line.tsx";
import { bareDigits } from "../parts/figures.ts";
import { Mark } from "../parts/mark.tsx";
import { Tag } from "../parts/tag.tsx";
import { type BorePoint, boreMap } from "./bore-map.ts";

const SHOWN: readonly { readonly condition: Condition; readonly title: string }[] = [
  { condition: "as_found", title: "as found" },
  { condition: "final", title: "finished" },
];
/** Rules about the form and size of bores, by what their limit is on. */
const BORE_RULE = /^bore_/;

const inInches = ({ value, unit }: Reading): number => convert(value, unit, "in");

export function boreSizes(build: Build, cylinder: number, condition: Condition): BorePoint[] {
  return DEPTHS.flatMap((depth) =>
    AXES.flatMap((axis) => {
      const logged = latest(build, "bore_diameter", { cylinder, depth, axis }, condition);
      return logged === undefined
        ? []
        : [{ depth, axis, value: inInches(logged.reading), digits: bareDigits(logged.reading.digits, logged.reading.unit) }];
    }),
  );
}

export function BoresPage({ book, build }: BuildPageProps) {
  const [condition, setCondition] = useState<Condition>("as_found");
  const findings = book.findings().filter(({ rule }) => BORE_RULE.test(rule));
  const numbers = Array.from({ length: build.spec.engine.cylinders }, (_, index) => index + 1);
  return (
    <div class="page bores">
      <h1>Bore map</h1>
      <div class="tag-row">
        {SHOWN.map((row) => (
          <Tag key={row.condition} on={row.condition === condition} onPick={() => setCondition(row.condition)}>
            {row.title}
          </Tag>
        ))}
      </div>
      <p class="quiet">
        Walls are drawn larger than life from the nominal size: two dots of the drawing to{" "}
        {isMetric(build.spec) ? "0.025 mm" : "a thou"} of diameter.
      </p>
      <div class="bore-cards">
        {numbers.map((cylinder) => (
          <BoreCard
            key={cylinder}
            build={build}
            cylinder={cylinder}
            condition={condition}
            findings={findings.filter(({ place }) => place.cylinder === cylinder)}
          />
        ))}
      </div>
    </div>
  );
}

interface CardProps {
  readonly build: Build;
  readonly cylinder: number;
  readonly condition: Condition;
  readonly findings: readonly Finding[];
}

function BoreCard({ build, cylinder, condition, findings }: CardProps) {
  const points = boreSizes(build, cylinder, condition);
  const sizes = nominalsIn(build.spec, "bore");
  const least = Math.min(...points.map(({ value }) => value));
  // The nominal that the bore was last cut to: the largest one it is not smaller than, by a thou.
  const nominal = sizes.filter((size) => size <= least + 0.001).at(-1) ?? sizes[0] ?? 0;
  const whole = latest(build, "bore_diameter", { cylinder }, condition);
  const svg = boreMap({
    title: `cylinder ${cylinder}`,
    nominal,
    points,
    ...(isMetric(build.spec) ? { from: `${Number((nominal * 25.4).toFixed(3))} mm` } : {}),
  });
  return (
    <section class="bore-card">
      {/* The text was made by our own pure function, with what came from outside escaped. */}
      <div dangerouslySetInnerHTML={{ __html: svg }} />
      {points.length === 0 && whole !== undefined ? (
        <p>
          One size for the bore: <span class="digits">{bareDigits(whole.reading.digits, whole.reading.unit)}</span>{" "}
          {UNITS[whole.reading.unit].label}
        </p>
      ) : null}
      {findings.map((finding) => (
        <div key={finding.rule} class="finding">
          <Mark mark={finding.verdict} />
          <Because finding={finding} />
        </div>
      ))}
    </section>
  );
}
