// Before the shift: a word to who has not read aloud yet, because a voice the ear knows is asked back far less.
import { useEffect, useState } from "preact/hooks";
import { linkTo } from "../route.ts";
import { bench } from "../store/bench.ts";
import { person } from "../store/device.ts";
import { speakerOf } from "./speakers.ts";

export function UnknownVoice() {
  const [known, setKnown] = useState(true);
  const device = bench.value?.device;
  const name = person.value;
  useEffect(() => {
    if (device !== undefined) void speakerOf(device, name).then((speaker) => setKnown(speaker !== undefined));
  }, [device, name]);
  if (known) return null;
  return (
    <p class="bench-note">
      The ear does not know your voice yet, and asks back more.
      <a class="bench-link" href={linkTo("voice")}>
        Read aloud for a minute
      </a>
    </p>
  );
}
