/** As much of an XML reader as a picture's test needs: throws on anything that is not well-formed. */
export function parseXml(xml: string): string[] {
  const names: string[] = [];
  const open: string[] = [];
  let at = 0;
  while (at < xml.length) {
    if (xml[at] !== "<") {
      const end = xml.indexOf("<", at);
      const text = xml.slice(at, end < 0 ? xml.length : end);
      if (open.length === 0 && text.trim() !== "") throw new Error(`text outside the root: ${text}`);
      if (/&(?!(amp|lt|gt|quot|#\d+);)/.test(text) || text.includes(">"))
        throw new Error(`bare markup in text: ${text}`);
      at = end < 0 ? xml.length : end;
      continue;
    }
    const tag = /^<(\/?)([a-z][\w-]*)((?: [a-z][\w:-]*="(?:[^"<&]|&(?:amp|lt|gt|quot|#\d+);)*")*)(\/?)>/i.exec(
      xml.slice(at),
    );
    if (tag === null) throw new Error(`not a tag: ${xml.slice(at, at + 80)}`);
    const [whole, close, name, written, empty] = tag;
    const keys = [...(written ?? "").matchAll(/ ([\w:-]+)=/g)].map((m) => m[1]);
    if (new Set(keys).size !== keys.length) throw new Error(`attribute twice: ${whole}`);
    if (close === "/") {
      if (open.pop() !== name) throw new Error(`closes what is not open: ${whole}`);
    } else {
      if (open.length === 0 && names.length > 0) throw new Error("two roots");
      names.push(name ?? "");
      if (empty !== "/") open.push(name ?? "");
    }
    at += whole.length;
  }
  if (open.length > 0) throw new Error(`never closed: ${open.join(", ")}`);
  return names;
}

/** Attributes of the element with this id; null where there is none. */
export function attributes(xml: string, id: string): Record<string, string> | null {
  for (const [, written] of xml.matchAll(/<[a-z]+((?: [\w:-]+="[^"]*")*)\/?>/gi)) {
    const found: Record<string, string> = {};
    for (const [, key, value] of (written ?? "").matchAll(/ ([\w:-]+)="([^"]*)"/g)) found[key ?? ""] = value ?? "";
    if (found.id === id) return found;
  }
  return null;
}
