// Who is at the bench, and the minute of reading aloud after which the ear knows the voice. Kept on this device only.
import { useEffect, useMemo, useState } from "preact/hooks";
import { CALIBRATION_PHRASES, type Speaker } from "../../extractors/hearing/index.ts";
import { FAULTS } from "../bench/fault.ts";
import { ReadingAloud } from "../bench/reading-aloud.ts";
import { forgetSpeaker, keepSpeaker, speakerOf } from "../bench/speakers.ts";
import { bench } from "../store/bench.ts";
import { type Device, person, setPerson } from "../store/device.ts";

export default function VoicePage() {
  const aloud = useMemo(() => new ReadingAloud(), []);
  const [known, setKnown] = useState<Speaker>();
  const name = person.value;
  const device = bench.value?.device;
  useEffect(() => () => void aloud.stop(), [aloud]);
  useEffect(() => {
    if (device !== undefined) void speakerOf(device, name).then(setKnown);
  }, [device, name]);
  const fitted = aloud.speaker.value;
  useEffect(() => {
    if (device === undefined || fitted === undefined) return;
    void keepSpeaker(device, name, fitted).then(() => setKnown(fitted));
  }, [device, name, fitted]);
  const forget = async (from: Device) => {
    await forgetSpeaker(from, name);
    aloud.speaker.value = undefined;
    setKnown(undefined);
  };
  return (
    <div class="page voice">
      <h1>Who is at the bench</h1>
      <Name />
      <h2>Your voice</h2>
      <p>{knownWords(known)}</p>
      <Aloud aloud={aloud} />
      {known === undefined || device === undefined || aloud.state.value === "reading" ? null : (
        <Forget onForget={() => void forget(device)} />
      )}
    </div>
  );
}

/** Asked twice, because a slip of the hand would cost a minute of reading and all that was learnt since. */
function Forget({ onForget }: { onForget: () => void }) {
  const [asked, setAsked] = useState(false);
  return (
    <p class="forget-row" aria-live="polite">
      {asked ? (
        <>
          What the ear knows of this voice will be gone.{" "}
          <button type="button" class="small-button" onClick={onForget}>
            Yes, forget it
          </button>{" "}
          <button type="button" class="small-button" onClick={() => setAsked(false)}>
            Keep it
          </button>
        </>
      ) : (
        <button type="button" class="small-button" onClick={() => setAsked(true)}>
          Forget this voice
        </button>
      )}
    </p>
  );
}

/** What the ear knows of a voice, in words. */
function knownWords(known: Speaker | undefined): string {
  if (known === undefined)
    return "The ear does not know this voice yet. A minute of reading aloud fits it to you; it stays on this device.";
  const { right, phrases, warp, sentences = 0 } = known;
  const since = `${sentences} ${sentences === 1 ? "sentence" : "sentences"} of work`;
  if (phrases === 0)
    return `The ear has learnt this voice from ${since}, at a pitch scale of ${warp}. A minute of reading aloud fits it better.`;
  const more = sentences === 0 ? "" : ` It has learnt from ${since} since.`;
  return `The ear knows this voice: ${right} of ${phrases} phrases were heard right, at a pitch scale of ${warp}.${more}`;
}

function Name() {
  const [name, setName] = useState(person.value);
  const save = (submit: Event) => {
    submit.preventDefault();
    const device = bench.value?.device;
    if (device !== undefined && name.trim() !== "") void setPerson(device, name.trim());
  };
  return (
    <form class="type-row name-form" onSubmit={save}>
      <label class="unseen" for="person">
        Name, as entries will be signed
      </label>
      <input id="person" value={name} maxLength={60} required onInput={(input) => setName(input.currentTarget.value)} />
      <button type="submit" class="stamp-button">
        Sign with this
      </button>
    </form>
  );
}

function Aloud({ aloud }: { aloud: ReadingAloud }) {
  const state = aloud.state.value;
  const phrase = CALIBRATION_PHRASES[aloud.at.value];
  const fault = aloud.fault.value;
  if (state === "reading" && phrase !== undefined)
    return (
      <section class="aloud" aria-live="polite">
        <p>
          {aloud.at.value + 1} of {CALIBRATION_PHRASES.length}. Read it as you would say it at the vise:
        </p>
        <p class="aloud-phrase">{phrase}</p>
        <button type="button" class="small-button" onClick={() => aloud.back()} disabled={aloud.at.value === 0}>
          The last one again
        </button>
      </section>
    );
  if (state === "fitting" || state === "starting")
    return (
      <p class="quiet" role="status">
        {state === "fitting" ? "Fitting the ear to your voice…" : "Loading the ear…"}
      </p>
    );
  return (
    <>
      {fault === undefined ? null : (
        <div class="warning" role="alert">
          <h3>{FAULTS[fault].title}</h3>
          <p>{FAULTS[fault].words}</p>
        </div>
      )}
      {aloud.trouble.value === "" ? null : <p class="warning">{aloud.trouble.value}</p>}
      <button type="button" class="stamp-button" onClick={() => void aloud.start(person.value)}>
        {state === "done" ? "Read again" : "Start reading"}
      </button>
    </>
  );
}
