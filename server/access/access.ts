// Who stands at the door: what a request may do, and how the answer is found.
import type { FastifyRequest } from "fastify";
import { ServiceError } from "../errors.ts";

export const ROLES = ["viewer", "bench", "owner"] as const;
/** `viewer` looks, `bench` also writes, `owner` also lets devices in and out. */
export type Role = (typeof ROLES)[number];

export interface Principal {
  readonly role: Role;
  /** Id of the paired device; `SHOP` for the machine the server runs on. */
  readonly device: string;
  readonly name: string;
}

/** What the machine that the server runs on is called among devices. */
export const SHOP = "shop";
export const loopbackName = "this machine";

/** What a route asks for: a role, or nothing at all. */
export type Need = Role | "open";

export interface Access {
  /** Who this request comes from, or nobody that is known. */
  identify(request: FastifyRequest): Promise<Principal | undefined>;
  /** Where a person without a paired device is sent. */
  readonly pairingPage?: string;
  /** Whether a Host header names this service: all others are refused, which stops a rebound name. */
  hostAllowed(host: string): boolean;
  /** Whether this caller has not been cut off since it was identified. */
  isIn(principal: Principal): boolean;
  /** Call `listener` when this caller is cut off; the function returned stops it. */
  onCutOff(principal: Principal, listener: () => void): () => void;
}

export function mayDo(role: Role, need: Need): boolean {
  return need === "open" || ROLES.indexOf(role) >= ROLES.indexOf(need);
}

/** The refusal of somebody who was let in when the request began. */
export const cutOff = () =>
  new ServiceError("not_paired", "Expected a paired device for this request, got one that was cut off meanwhile");

const LOOPBACK_HOSTS: ReadonlySet<string> = new Set(["localhost", "127.0.0.1", "[::1]"]);

/** The name of a Host header without its port, lower case. */
export function hostName(host: string): string {
  return host.toLowerCase().replace(/:\d+$/, "");
}

/** On the machine itself, whoever sits at it is the owner. */
export const loopbackAccess: Access = {
  identify: async () => ({ role: "owner", device: SHOP, name: loopbackName }),
  hostAllowed: (host) => LOOPBACK_HOSTS.has(hostName(host)),
  isIn: () => true,
  onCutOff: () => () => undefined,
};
