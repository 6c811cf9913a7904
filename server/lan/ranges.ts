// Whether an address lies in one of a list of ranges.
import { BlockList, isIPv6 } from "node:net";

/** @param ranges CIDR ranges of either version */
export function inRanges(ip: string, ranges: readonly string[]): boolean {
  const list = new BlockList();
  for (const range of ranges) {
    const [net = "", bits = "0"] = range.split("/");
    list.addSubnet(net, Number(bits), isIPv6(net) ? "ipv6" : "ipv4");
  }
  return list.check(ip, isIPv6(ip) ? "ipv6" : "ipv4");
}
