/**
 * File patterns of `programs:` and `entries:`: `*` within a folder, `**` across folders, `?`, `{a,b}`. Matched by walking
 * all readings at once, so that no pattern can make it slow.
 */

type Token = { readonly kind: "char"; readonly char: string } | { readonly kind: "one" | "many" | "any" | "folders" };

/** More alternatives than this are no pattern that a person wrote. */
const MAX_ALTERNATIVES = 200;

/** True when the path (forward slashes, relative) matches. */
export function matches(pattern: string, path: string, ignoreCase = false): boolean {
  const fold = (text: string): string => (ignoreCase ? text.toLowerCase() : text);
  const wanted = fold(path.replace(/^(\.\/)+/, ""));
  return alternatives(fold(pattern.replaceAll("\\", "/").replace(/^(\.\/)+/, ""))).some((one) =>
    matchOne(tokens(one), wanted),
  );
}

function alternatives(pattern: string): string[] {
  const done: string[] = [];
  const open = [pattern];
  while (open.length > 0 && done.length + open.length < MAX_ALTERNATIVES) {
    const next = open.pop() ?? "";
    const braces = /\{([^{}]*,[^{}]*)\}/.exec(next);
    if (braces === null) done.push(next);
    else
      for (const part of (braces[1] ?? "").split(","))
        open.push(next.slice(0, braces.index) + part + next.slice(braces.index + braces[0].length));
  }
  return done;
}

function tokens(pattern: string): Token[] {
  const list: Token[] = [];
  for (let i = 0; i < pattern.length; i++) {
    const char = pattern[i] ?? "";
    if (char === "*" && pattern[i + 1] === "*") {
      while (pattern[i + 1] === "*") i++;
      // `**/` also stands for no folder at all.
      const before = list.at(-1);
      const atStart = before === undefined || before.kind === "folders" || isSlash(before);
      if (atStart && pattern[i + 1] === "/") {
        i++;
        list.push({ kind: "folders" });
      } else list.push({ kind: "any" });
    } else if (char === "*") list.push({ kind: "many" });
    else if (char === "?") list.push({ kind: "one" });
    else list.push({ kind: "char", char });
  }
  return list;
}

const isSlash = (token: Token | undefined): boolean => token?.kind === "char" && token.char === "/";

function matchOne(pattern: readonly Token[], path: string): boolean {
  let states = new Set<number>();
  const enter = (set: Set<number>, start: number): void => {
    let at = start;
    set.add(at);
    // Stars also match nothing.
    while (["many", "any", "folders"].includes(pattern[at]?.kind ?? "")) set.add(++at);
  };
  enter(states, 0);
  for (const char of path) {
    const next = new Set<number>();
    for (const at of states) {
      const token = pattern[at];
      if (token === undefined) continue;
      if (token.kind === "char") {
        if (token.char === char) enter(next, at + 1);
      } else if (token.kind === "one") {
        if (char !== "/") enter(next, at + 1);
      } else if (token.kind === "folders") {
        // Stays until a slash ends a folder; only then does what follows begin.
        next.add(at);
        if (char === "/") enter(next, at + 1);
      } else if (token.kind === "any" || char !== "/") enter(next, at);
    }
    if (next.size === 0) return false;
    states = next;
  }
  return states.has(pattern.length);
}
