/** Writing SVG as text: no DOM, so that it works in a worker, in Node and in a page alike. */

export type Attributes = Readonly<Record<string, string | number>>;

/** One element. Numbers are rounded to a hundredth of a pixel; text is escaped; only ASCII comes out. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  let written = `<${name}`;
  for (const key in attributes) {
    const value = attributes[key];
    if (value !== undefined) written += ` ${key}="${typeof value === "number" ? px(value) : escapeText(value)}"`;
  }
  return children.length === 0 ? `${written}/>` : `${written}>${children.join("")}</${name}>`;
}

export function text(x: number, y: number, content: string, attributes: Attributes = {}): string {
  return element("text", { x, y, ...attributes }, escapeText(content));
}

export function path(points: readonly (readonly [number, number])[], attributes: Attributes): string {
  const d = points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${px(x)} ${px(y)}`).join("");
  return element("path", { d, fill: "none", ...attributes });
}

export function px(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return String(Object.is(rounded, -0) ? 0 : rounded);
}

export function escapeText(content: string): string {
  let out = "";
  for (const char of content) {
    const code = char.codePointAt(0) ?? 0;
    if (char === "&") out += "&amp;";
    else if (char === "<") out += "&lt;";
    else if (char === ">") out += "&gt;";
    else if (char === '"') out += "&quot;";
    else if (code >= 0x20 && code < 0x7f) out += char;
    // XML 1.0 has no place at all for control characters and lone surrogates.
    else if (code < 0x20 || (code >= 0xd800 && code <= 0xdfff) || code === 0xfffe || code === 0xffff) out += " ";
    else out += `&#${code};`;
  }
  return out;
}

/** As a picture in Markdown or HTML. The SVG must be ASCII, as `element` writes it. */
export function dataUri(svg: string): string {
  return `data:image/svg+xml;base64,${btoa(svg)}`;
}
