/** What reading a setup gathers: problems, the place of every value, and what is unknown and why. */
import type { SetupProblem } from "../types.ts";
import type { SourceFile, Span } from "./source.ts";

const MAX_PROBLEMS = 300;

export interface Place {
  readonly file: SourceFile;
  readonly span: Span;
  /** The key that the value stands under, else the value itself. */
  readonly keySpan: Span;
}

/** What reading has gathered so far; shared by all files of one setup. */
export class Findings {
  readonly problems: SetupProblem[] = [];
  readonly #broken: ReadonlySet<number>;

  /**
   * @param problems of the file's form, said first
   * @param broken lines (from 0) whose form is broken: nothing more is said of them, since they were misread
   */
  constructor(problems: readonly SetupProblem[] = [], broken: ReadonlySet<number> = new Set()) {
    this.problems.push(...problems);
    this.#broken = broken;
  }

  /** Setup path → where its value stands. */
  readonly places = new Map<string, Place>();
  /** Setup path → why there is no value. */
  readonly unknown = new Map<string, string>();

  /** The form of the file is broken somewhere: what is missing may only have been misread. */
  get malformed(): boolean {
    return this.#broken.size > 0;
  }

  /** More problems than this help nobody. */
  get full(): boolean {
    return this.problems.length >= MAX_PROBLEMS;
  }

  /** @param path setup path that the message is about; empty for the whole file */
  say(file: SourceFile, span: Span, path: string, message: string, severity: SetupProblem["severity"] = "error"): void {
    if (this.full || this.#broken.has(file.place(span.start).line)) return;
    this.problems.push({ file: file.uri, severity, range: file.range(span), message: about(path, message), path });
    if (this.full) {
      const more = `more than ${MAX_PROBLEMS} problems: the others are not said until these are mended`;
      this.problems.push({ file: file.uri, severity: "warning", range: file.range(span), message: more });
    }
  }

  /** Says a problem about a path that was read; without a place for it, about the nearest path above. */
  sayAt(path: string, message: string, severity: SetupProblem["severity"] = "error"): void {
    const place = this.placeOf(path);
    if (place !== null) this.say(place.file, place.file.head(place.span), path, message, severity);
  }

  /** Gives everything at and below a path a second name. */
  alias(path: string, second: string): void {
    for (const [at, place] of [...this.places]) {
      if (at === path || at.startsWith(`${path}.`) || at.startsWith(`${path}[`))
        this.places.set(second + at.slice(path.length), place);
    }
  }

  placeOf(path: string): Place | null {
    let at = path;
    while (at !== "") {
      const place = this.places.get(at);
      if (place !== undefined) return place;
      at = at.slice(0, Math.max(at.lastIndexOf("."), at.lastIndexOf("["), 0));
    }
    return this.places.get("") ?? null;
  }
}

/** `path: message`, without a path for the whole file. */
export function about(path: string, message: string): string {
  return path === "" ? message : `${path}: ${message}`;
}

export function join(path: string, segment: string): string {
  if (path === "") return segment;
  return segment.startsWith("[") || segment === "" ? path + segment : `${path}.${segment}`;
}
