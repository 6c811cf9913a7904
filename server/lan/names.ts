// What devices in the shop may call this machine by: one name that stays, the machine's own name, its addresses now.
import { isIPv6 } from "node:net";
import { hostname, type NetworkInterfaceInfo, networkInterfaces } from "node:os";

/** The name that stays the same whatever address the router hands out. */
export const DEFAULT_NAME = "thoubook.local";

export interface MachineNames {
  /** The name devices are sent to. */
  readonly canonical: string;
  /** DNS names, the canonical one first. */
  readonly dns: readonly string[];
  /** Addresses in the shop's network, without zone, in a stable order. */
  readonly ips: readonly string[];
}

const LABEL = /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/;

/** Whether text is a DNS name this service may be called by: lower-case labels, at least two, no wildcard. */
export function isDnsName(text: string): boolean {
  const labels = text.split(".");
  return text.length <= 253 && labels.length >= 2 && labels.every((label) => LABEL.test(label));
}

/** The machine's names and addresses as they are now. `interfaces` and `host` stand in for the machine's in tests. */
export function machineNames(
  canonical: string,
  interfaces: NodeJS.Dict<NetworkInterfaceInfo[]> = networkInterfaces(),
  host: string = hostname(),
): MachineNames {
  const own = `${host.split(".", 1)[0]?.toLowerCase() ?? ""}.local`;
  const dns = [...new Set([canonical, ...(isDnsName(own) ? [own] : []), "localhost"])];
  const ips = new Set<string>();
  // Link-local version 6 addresses need a zone, which no certificate or address bar carries.
  for (const list of Object.values(interfaces))
    for (const { address, internal, family } of list ?? [])
      if (!internal && !(family === "IPv6" && address.startsWith("fe80"))) ips.add(address.toLowerCase());
  return { canonical, dns, ips: ["127.0.0.1", "::1", ...[...ips].sort()] };
}

export const isLoopback = (ip: string): boolean => ip.startsWith("127.") || ip === "::1";

/** An address as a URL has it. */
export const urlHost = (ip: string): string => (isIPv6(ip) ? `[${ip}]` : ip);

/** An address without the prefix that a version 4 one has on a listener for both versions. */
export const plainIp = (ip: string): string => ip.replace(/^::ffff:(?=\d+\.)/i, "");

/** Whether a Host header's name, without its port, is one of the machine's. */
export function namesHost(names: MachineNames, host: string): boolean {
  if (host.startsWith("[") && host.endsWith("]")) return names.ips.includes(host.slice(1, -1));
  return names.dns.includes(host) || (!host.includes(":") && names.ips.includes(host));
}
