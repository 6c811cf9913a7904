// What the terminal tells the owner when the shop is open to its network: addresses, fingerprint, and the first device's code.
import { toString as qrText } from "qrcode";
import { PAIR_PATH } from "../lan/pair-routes.ts";
import { CODE_MINUTES } from "../lan/pairing.ts";
import type { Lan } from "../lan/start-lan.ts";
import type { Shop } from "../server.ts";
import { say } from "./output.ts";

const picture = (text: string) => qrText(text, { type: "terminal", small: true });

export async function sayLan(shop: Shop, lan: Lan): Promise<void> {
  const { secure, secureByAddress, plain, plainByAddress, fingerprint } = lan.urls();
  const { code } = await shop.pairing.make("bench");
  say(`\nIn the shop's network: ${secure}${secureByAddress === undefined ? "" : ` (or ${secureByAddress})`}`);
  say(
    `1. A new device first gets the shop's certificate at ${plain}${plainByAddress === undefined ? "" : ` (or ${plainByAddress})`}`,
  );
  say(await picture(plainByAddress ?? plain));
  say(`   The authority's SHA-256 fingerprint, to compare on the device:\n   ${fingerprint}`);
  say(
    `2. Then it pairs, within ${CODE_MINUTES} minutes, with the code ${code.slice(0, 5)}-${code.slice(5)} at ${secure}${PAIR_PATH.slice(1)}`,
  );
  say(await picture(`${secure}${PAIR_PATH.slice(1)}?code=${code}`));
  say(`More codes, the list of devices and customer links: ${shop.url}/door`);
}
