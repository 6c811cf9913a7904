// The usual cautions of the step that is open, shown once a step and build on this device, until they are put away.

import { useEffect, useState } from "preact/hooks";
import type { Spec } from "../../shared/spec/spec.ts";
import { cautionsFor } from "../../shared/steps/cautions.ts";
import { stepTitle } from "../../shared/steps/plan.ts";
import type { StepId } from "../../shared/steps/steps.ts";
import { bench } from "../store/bench.ts";
import { getSetting, setSetting } from "../store/device.ts";

const keyOf = (build: string) => `cautions:${build}`;

export function Cautions({ build, spec, step }: { build: string; spec: Spec; step: StepId | undefined }) {
  const [seen, setSeen] = useState<readonly string[]>();
  const device = bench.value?.device;
  useEffect(() => {
    if (device === undefined) return;
    void getSetting<string[]>(device, keyOf(build)).then((steps) => setSeen(steps ?? []));
  }, [build, device]);
  if (step === undefined || seen === undefined || seen.includes(step)) return null;
  const cautions = cautionsFor(step, spec.engine);
  if (cautions.length === 0) return null;
  const putAway = () => {
    const next = [...seen, step];
    setSeen(next);
    if (device !== undefined) void setSetting(device, keyOf(build), next);
  };
  return (
    <section class="cautions" aria-label="Cautions">
      <h2>Before {stepTitle(step, spec)}</h2>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <button type="button" class="big-button" onClick={putAway}>
        Read it
      </button>
    </section>
  );
}
