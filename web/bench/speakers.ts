// What is known of how each person at this device sounds, kept on the device by name.
import { readSpeaker, type Speaker } from "../../extractors/hearing/index.ts";
import { type Device, getSetting, setSetting } from "../store/device.ts";

const keyOf = (person: string) => `speaker:${person}`;

/** The profile of a person, if one was made here; one that is no profile any more is as good as none. */
export async function speakerOf(device: Device, person: string): Promise<Speaker | undefined> {
  const kept = await getSetting<unknown>(device, keyOf(person));
  try {
    return kept === undefined ? undefined : readSpeaker(kept);
  } catch {
    return undefined;
  }
}

export async function keepSpeaker(device: Device, person: string, speaker: Speaker): Promise<void> {
  await setSetting(device, keyOf(person), speaker);
}

/** Whoever says this name begins anew. */
export async function forgetSpeaker(device: Device, person: string): Promise<void> {
  await setSetting(device, keyOf(person), undefined);
}
