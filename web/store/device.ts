// Who and what this device is: a name made once and kept, the person at it, and the settings that stay here.
import { signal } from "@preact/signals";
import { type Database, openDatabase } from "./db.ts";
import { DbKeep } from "./db-keep.ts";
import { MemoryKeep } from "./memory-keep.ts";
import type { Keep } from "./parcel.ts";

export interface Device {
  /** What the log calls this device: its own name, behind that of its pass where the shop gave it one. */
  id: string;
  /** The name it gave itself. */
  readonly own: string;
  readonly keep: Keep;
  /** Undefined when the browser keeps nothing: then all is lost with the page, and the screen says so. */
  readonly db: Database | undefined;
}

/** The person at this device, as the shop calls them. */
export const person = signal("bench");

const PERSON = "person";
const DEVICE = "device";

function newDeviceId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(5));
  return `bench-${[...bytes].map((byte) => byte.toString(36).padStart(2, "0")).join("")}`;
}

/** Open this device's memory; call once. */
export async function openDevice(name?: string): Promise<Device> {
  try {
    const db = await openDatabase(name);
    let id = (await db.get("settings", DEVICE)) as string | undefined;
    if (id === undefined) {
      id = newDeviceId();
      await db.put("settings", id, DEVICE);
    }
    person.value = ((await db.get("settings", PERSON)) as string | undefined) ?? person.value;
    return { id, own: id, keep: new DbKeep(db), db };
  } catch {
    const id = newDeviceId();
    return { id, own: id, keep: new MemoryKeep(), db: undefined };
  }
}

/** Keep a setting on this device. */
export async function setSetting(device: Device, key: string, value: unknown): Promise<void> {
  await device.db?.put("settings", value, key);
}

export async function getSetting<T>(device: Device, key: string): Promise<T | undefined> {
  return (await device.db?.get("settings", key)) as T | undefined;
}

export async function setPerson(device: Device, name: string): Promise<void> {
  person.value = name;
  await setSetting(device, PERSON, name);
}
