// A build's photos filed for look-up: by proof and place, and by likeness, so that no question costs more with more photos.
import type { LoggedPhoto } from "../build/build.ts";
import { fingerprintDistance, PHOTO_FLOORS } from "../photo/doubts.ts";
import { placeKey } from "../places/places.ts";

/**
 * A 64-bit fingerprint in six bands of hex digits: two that differ in at most five bits agree in one band at least
 * (pigeonhole), so only photos sharing a band need to be compared.
 */
const BANDS = [
  [0, 3],
  [3, 6],
  [6, 9],
  [9, 12],
  [12, 14],
  [14, 16],
] as const;

if (PHOTO_FLOORS.twinBits >= BANDS.length)
  throw new Error(`Expected fewer twin bits than ${BANDS.length} bands, got ${PHOTO_FLOORS.twinBits}`);

/** Under which name photos stand together: their proof, else their step. */
export function groupOf(photo: LoggedPhoto): string {
  return photo.proof ?? `step:${photo.step ?? ""}`;
}

export class PhotoIndex {
  readonly #groups = new Map<string, Map<string, LoggedPhoto[]>>();
  readonly #filedUnder = new Map<string, { readonly group: string; readonly key: string }>();
  readonly #bySha = new Map<string, LoggedPhoto[]>();
  readonly #byBand = new Map<string, LoggedPhoto[]>();
  /** The photo that was taken or filed last. */
  last: LoggedPhoto | undefined;

  /** An empty index; one that takes another's place knows the same groups and places, whatever still stands there. */
  constructor(before?: PhotoIndex) {
    if (before === undefined) return;
    for (const [group, places] of before.#groups) this.#groups.set(group, new Map([...places.keys()].map((key) => [key, []])));
  }

  /** File a photo, anew when it has been filed elsewhere. */
  file(photo: LoggedPhoto): void {
    const before = this.#filedUnder.get(photo.id);
    if (before === undefined) this.#indexLook(photo);
    else {
      const list = this.#groups.get(before.group)?.get(before.key);
      list?.splice(list.indexOf(photo), 1);
    }
    const [group, key] = [groupOf(photo), placeKey(photo.place)];
    const places = this.#groups.get(group) ?? new Map<string, LoggedPhoto[]>();
    this.#groups.set(group, places);
    const list = places.get(key) ?? [];
    places.set(key, list);
    list.push(photo);
    // A photo filed again may be older than those already there; the newest stands last.
    if ((list.at(-2)?.order ?? 0) > photo.order) list.sort((a, b) => a.order - b.order);
    this.#filedUnder.set(photo.id, { group, key });
    this.last = photo;
  }

  #indexLook(photo: LoggedPhoto): void {
    const { sha256, fingerprint } = photo.photo;
    push(this.#bySha, sha256, photo);
    for (const key of bandKeys(fingerprint)) push(this.#byBand, key, photo);
  }

  /** Newest photo of a group at each place. */
  newest(group: string): LoggedPhoto[] {
    return [...(this.#groups.get(group)?.values() ?? [])].flatMap((list) => list.at(-1) ?? []);
  }

  /** Newest photo of a group at exactly this place. */
  newestAt(group: string, key: string): LoggedPhoto | undefined {
    return this.#groups.get(group)?.get(key)?.at(-1);
  }

  /** Names of the groups that have or had a photo at a place. */
  groupsAt(key: string): string[] {
    return [...this.#groups].flatMap(([group, places]) => (places.has(key) ? [group] : []));
  }

  groups(): Iterable<string> {
    return this.#groups.keys();
  }

  /** Other photos of the same file or with a fingerprint near this one's, oldest first. */
  alike(photo: LoggedPhoto): LoggedPhoto[] {
    const { sha256, fingerprint } = photo.photo;
    const found = new Set(this.#bySha.get(sha256) ?? []);
    for (const key of bandKeys(fingerprint)) {
      for (const other of this.#byBand.get(key) ?? []) {
        if (fingerprintDistance(other.photo.fingerprint, fingerprint) <= PHOTO_FLOORS.twinBits) found.add(other);
      }
    }
    found.delete(photo);
    return [...found].sort((a, b) => a.order - b.order);
  }
}

const bandKeys = (fingerprint: string): string[] => BANDS.map(([from, to], band) => `${band}${fingerprint.slice(from, to)}`);

function push(map: Map<string, LoggedPhoto[]>, key: string, photo: LoggedPhoto): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [photo]);
  else list.push(photo);
}
