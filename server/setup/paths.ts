/**
 * Paths and uris of any scheme, Windows paths included, as the setup needs them: what stands beside a file, and where a
 * program stands relative to the setup. No file is touched.
 */

/** One spelling for comparing: slashes forward, escapes of a uri decoded, drive letters small. */
export function normalise(uriOrPath: string): string {
  let text = uriOrPath;
  const scheme = /^[a-z][a-z0-9+.-]+:/i.exec(text);
  if (scheme !== null) {
    text = safeDecode(text);
    if (/^file:\/\//i.test(text)) {
      // file:///c:/x is the path c:/x; file://server/x is //server/x.
      text = text.slice(7);
      if (/^\/[a-z]:/i.test(text)) text = text.slice(1);
      else if (!text.startsWith("/")) text = `//${text}`;
    }
  }
  text = scheme === null || /^[a-z]:/i.test(text) ? text.replaceAll("\\", "/") : text;
  if (/^[a-z]:/i.test(text)) text = (text[0] ?? "").toLowerCase() + text.slice(1);
  return collapse(text);
}

/** `a/./b/../c` is `a/c`; what climbs above the start keeps its `..`. */
function collapse(text: string): string {
  const root = /^([a-z][a-z0-9+.-]+:(\/\/[^/]*)?\/?|\/\/|\/|[a-z]:\/)/i.exec(text)?.[0] ?? "";
  const parts: string[] = [];
  for (const part of text.slice(root.length).split("/")) {
    if (part === "" || part === ".") continue;
    if (part === ".." && parts.length > 0 && parts.at(-1) !== "..") parts.pop();
    else if (part !== ".." || root === "") parts.push(part);
  }
  return root + parts.join("/");
}

function safeDecode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** A scheme has two letters or more; one is a drive. */
const isUri = (text: string): boolean => /^[a-z][a-z0-9+.-]+:/i.test(text);
const isAbsolute = (text: string): boolean => /^([a-z][a-z0-9+.-]+:|\/|[a-z]:[\\/])/i.test(text);

/** The file a setup names, beside the setup: in the same kind of uri or path as `base` is. */
export function resolveBeside(base: string, relative: string): string {
  const wanted = relative.trim();
  if (isUri(wanted)) return wanted;
  if (!isUri(base)) {
    if (isAbsolute(wanted)) return wanted;
    const windows = base.includes("\\") && !base.includes("/");
    const joined = collapse(`${folder(base.replaceAll("\\", windows ? "/" : "\\"))}${wanted.replaceAll("\\", "/")}`);
    return windows ? joined.replaceAll("/", "\\") : joined;
  }
  const root = /^([a-z][a-z0-9+.-]+:(?:\/\/[^/]*)?)(.*)$/i.exec(base);
  if (root === null) return wanted;
  const path = wanted.replaceAll("\\", "/");
  const absolute = path.startsWith("/") || /^[a-z]:\//i.test(path);
  const encoded = path.split("/").map(encodeSegment).join("/");
  const target = absolute ? (encoded.startsWith("/") ? encoded : `/${encoded}`) : `${folder(root[2] ?? "")}${encoded}`;
  const [query] = target.split(/[?#]/);
  return `${root[1]}${collapse((query ?? target).startsWith("/") ? (query ?? target) : `/${query}`)}`;
}

/** Where a program called by number may be kept, most likely first. */
export function subprogramFiles(setup: string, patterns: readonly string[], number: number): readonly string[] {
  const digits = String(number);
  const spellings = [...new Set([digits, digits.padStart(4, "0"), digits.padStart(5, "0")])];
  return patterns.flatMap((pattern) =>
    pattern.includes("*")
      ? spellings.map((text) => resolveBeside(setup, pattern.replace("*", text)))
      : [resolveBeside(setup, pattern)],
  );
}

const encodeSegment = (segment: string): string =>
  encodeURIComponent(segment).replace(/%(2C|40|24|26|3D|2B|3B)/gi, (m) => decodeURIComponent(m));

const folder = (path: string): string => path.slice(0, path.lastIndexOf("/") + 1);

/**
 * The program as the setup's file patterns see it: relative to the setup's folder, forward slashes. A program that is
 * no absolute path is taken as relative already, unless the setup is relative too.
 */
export function relativeTo(setup: string, program: string): { readonly path: string; readonly ignoreCase: boolean } {
  const from = normalise(setup);
  const to = normalise(program);
  const ignoreCase = /^[a-z]:/i.test(from) || /^[a-z]:/i.test(to);
  if (isAbsolute(from) && !isAbsolute(to)) return { path: to, ignoreCase };
  const base = folder(from);
  const fold = (text: string): string => (ignoreCase ? text.toLowerCase() : text);
  if (fold(to).startsWith(fold(base))) return { path: to.slice(base.length), ignoreCase };
  const a = fold(base).split("/").slice(0, -1);
  const b = to.split("/");
  let common = 0;
  while (common < a.length && common < b.length - 1 && a[common] === fold(b[common] ?? "")) common++;
  if (common === 0 && isAbsolute(from) && isAbsolute(to) && a[0] !== fold(b[0] ?? "")) return { path: to, ignoreCase };
  return { path: [...a.slice(common).map(() => ".."), ...b.slice(common)].join("/"), ignoreCase };
}

/** Finds a file in the sources however its uri is spelt. */
export function findSource(
  sources: ReadonlyMap<string, string>,
  wanted: string,
): { readonly uri: string; readonly text: string } | null {
  const direct = sources.get(wanted);
  if (direct !== undefined) return { uri: wanted, text: direct };
  const key = normalise(wanted);
  for (const [uri, text] of sources) if (normalise(uri) === key) return { uri, text };
  return null;
}
