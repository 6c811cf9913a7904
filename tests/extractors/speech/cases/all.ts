// Every case table.
import { ASSEMBLY_CASES } from "./assembly.ts";
import { BORE_CASES } from "./bores.ts";
import { CRANK_CASES } from "./crank.ts";
import { HEAD_CASES } from "./head.ts";
import { ROD_CASES } from "./rods.ts";
import { SHOP_CASES } from "./shop.ts";
import type { Cases } from "./types.ts";

export const TABLES: Readonly<Record<string, Cases>> = {
  bores: BORE_CASES,
  crank: CRANK_CASES,
  rods: ROD_CASES,
  head: HEAD_CASES,
  shop: SHOP_CASES,
  assembly: ASSEMBLY_CASES,
};
