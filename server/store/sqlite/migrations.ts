// The database's versions, in order. A released one is never edited: a change is a new one at the end.

export interface Migration {
  readonly id: number;
  readonly name: string;
  readonly sql: string;
}

const noChange = (table: string) =>
  ["UPDATE", "DELETE"]
    .map(
      (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is append-only'); END;`,
    )
    .join("\n");

export const MIGRATIONS: readonly Migration[] = [
  {
    id: 1,
    name: "events and blobs",
    sql: `
CREATE TABLE event (
  build TEXT NOT NULL,
  seq INTEGER NOT NULL,
  id TEXT NOT NULL,
  device TEXT NOT NULL,
  device_seq INTEGER NOT NULL,
  bundle TEXT NOT NULL,
  body TEXT NOT NULL,
  prev_hash TEXT NOT NULL,
  hash TEXT NOT NULL,
  received_at TEXT NOT NULL,
  PRIMARY KEY (build, seq),
  UNIQUE (build, prev_hash),
  UNIQUE (id)
);
CREATE INDEX event_by_bundle ON event (bundle);
CREATE INDEX event_by_device ON event (device, device_seq);
CREATE TABLE blob_ref (
  sha256 TEXT NOT NULL,
  event TEXT NOT NULL REFERENCES event (id),
  build TEXT NOT NULL,
  kind TEXT NOT NULL,
  type TEXT NOT NULL,
  PRIMARY KEY (sha256, event)
);
CREATE INDEX blob_ref_by_build ON blob_ref (build, sha256);
${noChange("event")}
${noChange("blob_ref")}
`,
  },
  {
    id: 2,
    name: "devices and customer links",
    sql: `
CREATE TABLE device (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  role TEXT NOT NULL,
  door TEXT NOT NULL,
  token_hash TEXT NOT NULL UNIQUE,
  paired_at TEXT NOT NULL,
  last_seen_at TEXT,
  revoked_at TEXT
);
CREATE TABLE link (
  id TEXT PRIMARY KEY,
  build TEXT NOT NULL,
  token_hash TEXT NOT NULL UNIQUE,
  made_at TEXT NOT NULL,
  expires_at TEXT NOT NULL,
  revoked_at TEXT
);
CREATE INDEX link_by_build ON link (build);
`,
  },
  {
    id: 3,
    name: "links by door, pairing codes and tries that outlive a restart",
    sql: `
ALTER TABLE link ADD COLUMN door TEXT NOT NULL DEFAULT 'secure';
CREATE TABLE pairing_code (hash TEXT PRIMARY KEY, role TEXT NOT NULL, until TEXT NOT NULL);
CREATE TABLE pairing_try (address TEXT PRIMARY KEY, since TEXT NOT NULL, tries INTEGER NOT NULL);
`,
  },
];
