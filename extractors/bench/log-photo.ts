// A read photo in, the events it makes out: where it is filed, and a question where its card says otherwise.
import { type Build, focusOf } from "../../shared/build/index.ts";
import type { BenchEvent, PhotoFacts } from "../../shared/events/events.ts";
import { cardQuestion, type FilingInput, filePhoto } from "../../shared/photo/filing.ts";
import { type Stamp, stampEvent } from "./stamp.ts";

export interface PhotoInput {
  readonly photo: PhotoFacts;
  readonly said: FilingInput["said"] & { readonly statement?: string | undefined };
  readonly build: Build;
  readonly stamp: Stamp;
}

/** Turn a photo's facts into events. Nothing is stored and the build is not touched. */
export function logPhoto({ photo, said, build, stamp }: PhotoInput): readonly BenchEvent[] {
  const filed = filePhoto({ photo, said, focus: focusOf(build, stamp.device), spec: build.spec });
  const statement = said.statement === undefined || said.statement === "" ? {} : { statement: said.statement };
  const taken = stampEvent(stamp, "photo.taken", { photo, ...filed, ...statement });
  const question = cardQuestion(photo, filed, taken.id);
  return question === undefined ? [taken] : [taken, stampEvent(stamp, "question.asked", { question })];
}
