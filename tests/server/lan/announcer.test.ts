// The name that stays the same: answers of multicast DNS, read back by the wire format's own library.
import makeMdns from "multicast-dns";
import { describe, expect, it } from "vitest";
import { answersFor, startAnnouncer } from "../../../server/lan/announcer.ts";
import { machineNames } from "../../../server/lan/names.ts";
import { atEnd } from "../helper.ts";

const names = (canonical: string, ...addresses: string[]) =>
  machineNames(
    canonical,
    {
      eth0: addresses.map((address) => ({ address, internal: false, family: address.includes(":") ? "IPv6" : "IPv4" }) as never),
    },
    "shop-pc",
  );

/** Multicast kept to this machine: no other device hears it, and none is needed. */
const NETWORK = { interface: "127.0.0.1", bind: "0.0.0.0", port: 4453 };

describe("the announcer", () => {
  it("answers with the machine's addresses of both versions and never with loopback", () => {
    const answers = answersFor(names("thoubook.local", "192.168.7.20", "2001:db8::5", "10.0.0.3"));
    expect(answers.map(({ name, type, data }) => [name, type, data])).toEqual([
      ["thoubook.local", "A", "10.0.0.3"],
      ["thoubook.local", "A", "192.168.7.20"],
      ["thoubook.local", "AAAA", "2001:db8::5"],
    ]);
  });

  it("answers a question for its name on the network, and no other", async () => {
    let address = "192.168.7.20";
    const name = `thoubook-test-${process.pid}.local`;
    const announcer = startAnnouncer(
      () => names(name, address),
      () => undefined,
      NETWORK,
    );
    atEnd(() => announcer.close());
    const asker = makeMdns(NETWORK);
    atEnd(() => new Promise<void>((resolve) => asker.destroy(() => resolve())));
    const heard: string[] = [];
    asker.on("response", ({ answers }) => {
      for (const answer of answers ?? []) if (answer.name === name && answer.type === "A") heard.push(String(answer.data));
    });
    const asked = async () => {
      heard.length = 0;
      asker.query({ questions: [{ name, type: "A" }] });
      await expect.poll(() => heard.at(-1), { timeout: 5000, interval: 100 }).toBe(address);
    };
    await asked();
    address = "10.0.0.3";
    await asked();
    heard.length = 0;
    asker.query({ questions: [{ name: "other.local", type: "A" }] });
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(heard).toEqual([]);
  });

  it("stays silent for a name that a router keeps", async () => {
    const announcer = startAnnouncer(
      () => names("bench.internal", "192.168.7.20"),
      () => undefined,
    );
    announcer.announce();
    await announcer.close();
  });
});
