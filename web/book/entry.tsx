// One entry of the day book.

import type { Build } from "../../shared/build/index.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { stepTitle } from "../../shared/steps/plan.ts";
import { figureLine } from "../parts/figures.ts";
import { PlayClip } from "../parts/play.tsx";
import { Tag } from "../parts/tag.tsx";
import { clockBeside, clockOf } from "../parts/time.ts";
import { Picture } from "../photo/picture.tsx";
import type { Act, Entry } from "./entries.ts";
import { ReadingLine } from "./reading-line.tsx";

interface Props {
  readonly entry: Entry;
  readonly build: Build;
  readonly byEvent: ReadonlyMap<string, readonly Finding[]>;
}

const KIND_WORDS: Readonly<Record<Entry["kind"], string>> = {
  said: "typed",
  photo: "picture",
  step: "step",
  part: "part changed",
  paper: "paper",
};

export function EntryRow({ entry, build, byEvent }: Props) {
  const how = entry.kind === "said" && entry.spoken ? "heard" : KIND_WORDS[entry.kind];
  return (
    <li class={`entry entry-${entry.kind}`}>
      <div class="entry-margin">
        <time dateTime={entry.at}>{clockOf(entry.at)}</time>
        {entry.receivedAt === undefined ? null : (
          <small>
            shop <time dateTime={entry.receivedAt}>{clockBeside(entry.receivedAt, entry.at)}</time>
          </small>
        )}
        <small>{how}</small>
        {entry.waits ? <small class="unsent">not sent yet</small> : null}
      </div>
      <div class="entry-body">
        <Heading entry={entry} build={build} />
        {entry.readings.map((id) => {
          const logged = build.readings.get(id);
          if (logged === undefined) return null;
          return <ReadingLine key={id} build={build.id} logged={logged} findings={byEvent.get(id) ?? []} />;
        })}
        {entry.acts.map((act) => (
          <ActLine key={`${act.verb}${act.target}`} act={act} build={build} />
        ))}
        {entry.notes.map((note) => (
          <p key={note.text} class="note">
            <b>{note.kind === "text" ? "note" : note.kind.replaceAll("_", " ")}:</b> {note.state ?? note.text}
            {note.place === undefined ? null : `, ${placeLabel(note.place)}`}
          </p>
        ))}
        {entry.questions.map((question) => (
          <p key={question.code} class="question">
            Asked: {question.say}
          </p>
        ))}
        {entry.lines.map((line) => (
          <p key={line} class="line">
            {line}
          </p>
        ))}
        {entry.photo === undefined ? null : <EntryPicture entry={entry} build={build} />}
        <small>{entry.by}</small>
      </div>
    </li>
  );
}

function Heading({ entry, build }: { entry: Entry; build: Build }) {
  const nothing = entry.kind === "said" && entry.text === "";
  return (
    <div class="entry-head">
      {entry.kind === "said" ? (
        <q class="heard">{nothing ? "no words made out" : entry.text}</q>
      ) : (
        <p class="entry-text">{entry.text}</p>
      )}
      {entry.step === undefined || entry.kind === "step" ? null : <Tag>{stepTitle(entry.step, build.spec)}</Tag>}
      {entry.clip === undefined ? null : <PlayClip sha256={entry.clip} />}
    </div>
  );
}

function ActLine({ act, build }: { act: Act; build: Build }) {
  const logged = build.readings.get(act.target);
  if (logged === undefined || act.verb === "corrected") return null;
  const { reading } = logged;
  const where = placeLabel(reading.place);
  return (
    <p class="act">
      <b>{act.verb}</b> {QUANTITIES[reading.quantity].label}
      {where === "" ? "" : `, ${where}`}, {figureLine(reading)}
    </p>
  );
}

function EntryPicture({ entry, build }: { entry: Entry; build: Build }) {
  const photo = build.photos.get(entry.id);
  if (photo === undefined) return null;
  return (
    <div class="picture">
      <Picture build={build} photo={photo} />
      {entry.statement === undefined ? null : <span>{entry.statement}</span>}
    </div>
  );
}
