// Answers "who is thoubook.local?" on the shop's network (multicast DNS, RFC 6762), so that the address stays the same
// whatever number the router hands out, by version 4 and by version 6.
import { isIPv6 } from "node:net";
import makeMdns from "multicast-dns";
import { isLoopback, type MachineNames } from "./names.ts";

const TTL_SECONDS = 120;
const ANSWERED: ReadonlySet<string> = new Set(["A", "AAAA", "ANY"]);

export interface Announcer {
  /** Tell the network of changed addresses. */
  announce(): void;
  close(): Promise<void>;
}

/** The records for the canonical name, and the flag that tells others to forget older ones (section 10.2). */
export function answersFor(names: MachineNames) {
  return names.ips
    .filter((ip) => !isLoopback(ip))
    .map((data) => ({
      name: names.canonical,
      type: isIPv6(data) ? ("AAAA" as const) : ("A" as const),
      ttl: TTL_SECONDS,
      flush: true,
      data,
    }));
}

/**
 * Start answering. Names outside `.local` are a router's business and are not answered for.
 * @param failed told when the network does not allow it; devices then use the address
 * @param network where to answer; all of the machine's networks at the standard's port by default
 */
export function startAnnouncer(
  names: () => MachineNames,
  failed: (error: Error) => void,
  network: { interface?: string; port?: number; bind?: string } = {},
): Announcer {
  if (!names().canonical.endsWith(".local")) return { announce: () => undefined, close: async () => undefined };
  const mdns = makeMdns(network);
  const answer = () => mdns.respond({ answers: answersFor(names()) });
  mdns.on("query", ({ questions }) => {
    const { canonical } = names();
    if (questions?.some(({ name, type }) => name.toLowerCase() === canonical && ANSWERED.has(String(type)))) answer();
  });
  mdns.on("error", failed);
  mdns.on("warning", failed);
  mdns.on("ready", answer);
  return {
    announce: answer,
    close: () => new Promise((resolve) => mdns.destroy(() => resolve())),
  };
}
