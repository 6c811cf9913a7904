// A JSON value as one exact text: keys sorted, no spaces, numbers as ECMAScript writes them (the form RFC 8785 prescribes).

/** Serialise `value` so that equal values give equal text whatever the order of their keys. Undefined members are left out. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item ?? null)).join(",")}]`;
  if (value !== null && typeof value === "object") {
    const members: string[] = [];
    for (const key of Object.keys(value).sort()) {
      const member = (value as Record<string, unknown>)[key];
      if (member !== undefined) members.push(`${JSON.stringify(key)}:${canonicalJson(member)}`);
    }
    return `{${members.join(",")}}`;
  }
  return JSON.stringify(value);
}
