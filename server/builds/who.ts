// In whose name an entry is written. The pass shown at the door says which device it was; what a request claims may only
// say more exactly which part of it, and which person at it. The shop's own machine speaks for anybody: it carries in by
// hand what other devices could not send, and whoever sits at it owns the file anyway.
import type { FastifyRequest } from "fastify";
import { UNNAMED } from "../../shared/api/entries.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import { type Access, cutOff, SHOP } from "../access/access.ts";
import { expected, ServiceError } from "../errors.ts";
import type { Store } from "../store/store.ts";

export interface Claim {
  readonly device?: string | undefined;
  readonly by?: string | undefined;
}

export interface Who {
  /** Id of the paired device. */
  readonly device: string;
  /** The name the owner sees it by. */
  readonly by: string;
  /** To be called right before anything is kept. @throws ServiceError `not_paired` once the device has been cut off */
  stillIn(): void;
}

const LONGEST_PART = 60;

/** Who sent this request. */
export function whoOf({ access }: { readonly access: Access }, { principal }: FastifyRequest): Who {
  const stillIn = () => {
    if (principal !== null && !access.isIn(principal)) throw cutOff();
  };
  const here = principal === null || principal.device === SHOP;
  return here ? { device: SHOP, by: SHOP, stillIn } : { device: principal.device, by: principal.name, stillIn };
}

/**
 * The device and person an entry is logged under: `PASS` or `PASS/part` for the device, `Name` or `Name (person)` for who.
 * A claim to be another device becomes a part of this one. Names of devices hold no brackets, so nobody passes for another.
 * @throws ServiceError `invalid_request` for a part of more than 60 characters
 */
export function narrowed(who: Who, claim: Claim): { device: string; by: string } {
  if (who.device === SHOP) return { device: claim.device ?? SHOP, by: claim.by ?? SHOP };
  const part = claim.device?.split("/").at(-1) ?? "";
  if (part.length > LONGEST_PART)
    throw new ServiceError("invalid_request", expected(`at most ${LONGEST_PART} characters`, "device", `${part.length}`));
  const { by } = claim;
  // What this device was given back as its own already carries its name.
  const named = by?.startsWith(`${who.by} (`) ? by : `${who.by} (${by})`;
  return {
    device: part === "" || part === who.device ? who.device : `${who.device}/${part}`,
    by: by === undefined || by === UNNAMED || by === who.by ? who.by : named,
  };
}

/**
 * Events as they are logged for this sender. What is in the log already keeps the name it was logged under, so that an
 * answer lost on its way can be asked for again after a device was renamed or paired anew.
 */
export async function inTheNameOf(store: Store, who: Who, events: readonly BenchEvent[]): Promise<BenchEvent[]> {
  const named: BenchEvent[] = [];
  for (const event of events) {
    const before = await store.find(event.id);
    const { device, by } = before === undefined ? narrowed(who, event) : (JSON.parse(before.body) as BenchEvent);
    named.push({ ...event, device, by });
  }
  return named;
}
