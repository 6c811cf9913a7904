// What a build is at a glance, from its fold.
import type { BuildRow, BuildSummary } from "../../shared/api/builds.ts";
import { VERDICTS } from "../../shared/rules/finding.ts";
import type { OpenedBuild } from "../builds/builds.ts";

export function toBuildRow({ build, head, lastAt }: OpenedBuild): BuildRow {
  let counted = 0;
  for (const reading of build.readings.values()) if (reading.status === "counted") counted += 1;
  return {
    id: build.id,
    name: build.name,
    ...(build.customer === undefined ? {} : { customer: build.customer }),
    engine: build.spec.name,
    openedAt: build.opened,
    lastAt,
    ...(build.handedOver === undefined ? {} : { handedOverAt: build.handedOver.at }),
    head,
    counts: {
      readings: counted,
      waiting: build.waiting.size,
      photos: build.photos.size,
      utterances: build.utterances.size,
    },
  };
}

export function toSummary(opened: OpenedBuild): BuildSummary {
  const findings = opened.findings();
  const count = (verdict: string) => findings.filter((finding) => finding.verdict === verdict).length;
  return {
    ...toBuildRow(opened),
    spec: opened.build.spec,
    verdicts: Object.fromEntries(VERDICTS.map((verdict) => [verdict, count(verdict)])) as BuildSummary["verdicts"],
    setAside: [...opened.build.setAside].map(({ order, id, type, code, say }) => ({ seq: order, id, type, code, say })),
    steps: [...opened.build.steps.values()].map((record) => ({
      step: record.step,
      openedAt: record.opened,
      ...(record.closed === undefined ? {} : { closedAt: record.closed }),
    })),
  };
}
