// The tables as Kysely sees them. Only what SQLite and PostgreSQL share: text, integers, times as ISO text.

export interface EventTable {
  build: string;
  seq: number;
  id: string;
  device: string;
  device_seq: number;
  bundle: string;
  body: string;
  prev_hash: string;
  hash: string;
  received_at: string;
}

export interface BlobRefTable {
  sha256: string;
  event: string;
  build: string;
  kind: "clip" | "photo";
  type: string;
}

export interface MigrationTable {
  id: number;
  name: string;
  applied_at: string;
}

export interface DeviceTable {
  id: string;
  name: string;
  role: "owner" | "bench" | "viewer";
  /** `secure` tokens live in Secure cookies; `plain` ones are only good on the plain listener. */
  door: "secure" | "plain";
  token_hash: string;
  paired_at: string;
  last_seen_at: string | null;
  revoked_at: string | null;
}

export interface LinkTable {
  id: string;
  build: string;
  door: "secure" | "plain";
  token_hash: string;
  made_at: string;
  expires_at: string;
  revoked_at: string | null;
}

export interface PairingCodeTable {
  hash: string;
  role: "owner" | "bench" | "viewer";
  until: string;
}

/** Tries to pair from one address since a moment. */
export interface PairingTryTable {
  address: string;
  since: string;
  tries: number;
}

export interface Tables {
  event: EventTable;
  blob_ref: BlobRefTable;
  migration: MigrationTable;
  device: DeviceTable;
  link: LinkTable;
  pairing_code: PairingCodeTable;
  pairing_try: PairingTryTable;
}
