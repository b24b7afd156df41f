/** Every value in force for a program with its origin: what `--print-setup` shows. */

import { writeEntry } from "../../grammar/cut-notes.ts";
import type { Quantity, UnitSystem } from "../units/quantities.ts";
import { baseUnit, say } from "../units/wording.ts";
import { PRACTICE_CLASSES, PRACTICE_FAMILIES } from "./practice.ts";
import { flatten, ITEM, schemasAt } from "./schema/at.ts";
import { DIALECT } from "./schema/dialect.ts";
import { MACHINE } from "./schema/machines.ts";
import type { Schema } from "./schema/node.ts";
import { TOOL } from "./schema/tools.ts";
import { WORKPIECE } from "./schema/workpieces.ts";
import type { Origin, ResolvedSetup, Stock, WorkMaterial, Workpiece } from "./types.ts";

type Printable = string | number | boolean | null | readonly number[];

/** @param from path that has the origin, where it is another one */
type Put = (path: string, value: Printable, quantity?: Quantity, from?: string) => void;

export interface PrintedValue {
  /** `machines.vmc.spindle.maxRpm` */
  readonly path: string;
  /** In the base unit; lists and maps are spread over several paths, lists of plain numbers are not. */
  readonly value: Printable;
  /** Base unit, empty for texts and plain numbers. */
  readonly unit: string;
  /** As a person reads it, in both unit systems. */
  readonly shown: string;
  readonly origin: Origin;
}

export interface PrintedSetup {
  readonly file: string | null;
  readonly values: readonly PrintedValue[];
  readonly problems: ResolvedSetup["problems"];
  readonly unknown: readonly { readonly path: string; readonly why: string }[];
}

/** Keys of resolved objects that are not values of the setup. */
const NOT_VALUES = new Set(["path", "familyAssumed", "assumed", "dialect"]);

export function printSetupJson(setup: ResolvedSetup): PrintedSetup {
  const values: PrintedValue[] = [];
  const inside =
    (schema: Schema | null, base: string) =>
    (path: string, value: Printable, quantity?: Quantity, from?: string): void => {
      const asked = quantity ?? (schema === null ? null : quantityIn(schema, path.slice(base.length + 1)));
      values.push(row(setup, path, value, asked, from));
    };
  const put = inside(null, "");
  put("units", setup.units);
  put("dialect", setup.dialect.name);
  walkDialect(setup, values);
  const { machine, workpiece, material } = setup;
  if (machine !== null) walk(machine.path, machine, inside(MACHINE, machine.path));
  for (const tool of setup.tools.values()) walk(tool.path, tool, inside(TOOL, tool.path));
  if (workpiece !== null) putWorkpiece(workpiece, inside(WORKPIECE, workpiece.path));
  if (material !== null) putMaterial(material, put);
  for (const name of PRACTICE_CLASSES) {
    for (const family of PRACTICE_FAMILIES) {
      const share = setup.practice.share[name][family];
      values.push(row(setup, `practice.${name}.${family}`, share ?? "no", share === null ? null : "share"));
    }
  }
  for (const [check, severity] of setup.severity) put(`severity.${check}`, severity);
  return {
    file: setup.file,
    values,
    problems: setup.problems,
    unknown: [...setup.unknown].map(([path, why]) => ({ path, why })),
  };
}

export function printSetup(setup: ResolvedSetup): string {
  const printed = printSetupJson(setup);
  const lines = [setup.file === null ? "no setup file: defaults" : `setup ${setup.file}`, ""];
  const wide = Math.min(56, Math.max(...printed.values.map((value) => value.path.length)));
  const shown = Math.min(36, Math.max(...printed.values.map((value) => value.shown.length)));
  for (const value of printed.values)
    lines.push(`${value.path.padEnd(wide)}  ${value.shown.padEnd(shown)}  ${value.origin.text}`);
  if (printed.unknown.length > 0) {
    lines.push("", "unknown:");
    for (const { path, why } of printed.unknown) lines.push(`${path === "" ? "(file)" : path}  ${why}`);
  }
  if (printed.problems.length > 0) {
    lines.push("", "problems:");
    for (const { file, range, severity, message, unused } of printed.problems) {
      const aside = unused === true ? "; not used by this program" : "";
      lines.push(`${file}:${range.line + 1}:${range.column + 1} ${severity}: ${message}${aside}`);
    }
  }
  return `${lines.join("\n")}\n`;
}

/** Under the names that the file has for them. */
function putWorkpiece(workpiece: Workpiece, put: Put): void {
  const { path } = workpiece;
  if (workpiece.materialKey !== null) put(`${path}.material`, workpiece.materialKey);
  if (workpiece.hardnessHB !== null) put(`${path}.hardness`, `${workpiece.hardnessHB} HB`);
  walk(`${path}.workOffsets`, workpiece.workOffsets, put);
  if (workpiece.stock !== null) putStock(workpiece.stock, `${path}.stock`, put);
  for (const entry of workpiece.entries) {
    const { form, exit, path: at, ...where } = entry;
    walk(at, where, put);
    put(`${at}.entry`, writeEntry(form, 1));
    if (exit !== null) put(`${at}.exit`, writeEntry(exit, 1));
  }
}

/** What friendly forms came to stands below the form: `solids[0].plates.layers[2].box.z`. */
function putStock(stock: Stock, path: string, put: Put): void {
  put(`${path}.wcs`, stock.wcs);
  if (stock.skin !== null) walk(`${path}.skin`, stock.skin, put);
  for (const body of [...stock.solids, ...stock.voids]) {
    const asWritten = body.path.endsWith(`.${body.kind}`);
    const at = asWritten ? body.path : `${body.path}.${body.kind}`;
    if (body.kind === "box") {
      for (const axis of ["x", "y", "z"] as const) put(`${at}.${axis}`, body[axis], "length");
    } else {
      put(`${at}.axis`, body.axis);
      for (const key of ["through", "diameter", "span"] as const) put(`${at}.${key}`, body[key], "length");
    }
    const cuts = asWritten ? at.slice(0, -body.kind.length - 1) : body.path;
    for (const [i, { through, normal, path: from }] of body.cut.entries()) {
      put(`${cuts}.cut[${i}].through`, through, "length", from);
      put(`${cuts}.cut[${i}].normal`, normal, undefined, from);
    }
  }
}

function putMaterial(material: WorkMaterial, put: Put): void {
  const { path, designations, hardnessHB, kienzle, ...rest } = material;
  walk(path, rest, put);
  if (designations.length > 0) put(`${path}.designations`, designations.join(", "));
  if (hardnessHB !== null) put(`${path}.hardnessHB`, hardnessHB);
  for (const [i, pair] of kienzle.entries()) {
    const { kc11, ...others } = pair;
    put(`${path}.kienzle[${i}].kc11`, kc11, "stress");
    walk(`${path}.kienzle[${i}]`, others, put);
  }
}

function walk(path: string, value: unknown, put: Put): void {
  if (value === null || value === undefined) return;
  if (typeof value === "string" || typeof value === "number" || typeof value === "boolean") {
    put(path, value);
    return;
  }
  if (value instanceof Map) {
    for (const [key, inner] of value) walk(`${path}.${String(key)}`, inner, put);
    return;
  }
  if (Array.isArray(value)) {
    if (value.length > 0 && value.every((inner) => typeof inner === "number")) {
      put(path, value as readonly number[]);
      return;
    }
    for (const [i, inner] of (value as readonly unknown[]).entries()) walk(itemPath(path, inner, i), inner, put);
    return;
  }
  if (typeof value !== "object") return;
  for (const [key, inner] of Object.entries(value)) if (!NOT_VALUES.has(key)) walk(`${path}.${key}`, inner, put);
}

/** Windows are named by what they are for, everything else by its number; as the reader named them. */
function itemPath(path: string, item: unknown, index: number): string {
  if (!path.endsWith(".windows") || typeof item !== "object" || item === null) return `${path}[${index}]`;
  const window = item as { readonly group?: unknown; readonly material?: unknown };
  return `${path}.${String(window.material ?? window.group ?? index)}`;
}

/** Keys that the setup writes carry their own origin; the others come with the dialect that was inherited. */
function walkDialect(setup: ResolvedSetup, values: PrintedValue[]): void {
  const base = `${setup.machine?.path ?? ""}.dialect`;
  const inherited = setup.origins.get("dialect");
  for (const [key, value] of Object.entries(setup.dialect)) {
    if (key === "name") continue;
    const origin = setup.origins.get(`${base}.${key}`) ?? dialectOrigin(setup, inherited);
    const text = dialectText(key, value);
    if (typeof text !== "string" && typeof text !== "number" && typeof text !== "boolean") continue;
    const printed = row(setup, `dialect.${key}`, text, quantityIn(DIALECT, key));
    values.push({ ...printed, origin });
  }
}

function dialectText(key: string, value: unknown): unknown {
  if (value instanceof Set) return [...value].join(", ");
  if (!(value instanceof Map)) {
    if (typeof value !== "object" || value === null) return value;
    const declared = Object.entries(value).filter(([, each]) => each !== null);
    return declared.length === 0 ? null : declared.map(([name, each]) => `${name} ${each}`).join(", ");
  }
  return [...value]
    .map(([code, what]: [unknown, unknown]) => {
      const letter = key === "customM" ? "M" : "G";
      const name = typeof code !== "number" ? String(code) : `${letter}${letter === "G" ? code / 10 : code}`;
      const parts = typeof what === "object" && what !== null ? Object.values(what) : [what];
      return `${name} ${parts.join(" ")}`;
    })
    .join(", ");
}

function dialectOrigin(setup: ResolvedSetup, chosen: Origin | undefined): Origin {
  const text = `dialect ${setup.dialect.name.replace(/, changed$/, "")}`;
  return {
    kind: "default",
    file: "",
    line: -1,
    column: -1,
    text: chosen?.kind === "option" ? `${text}, by option` : text,
  };
}

function row(
  setup: ResolvedSetup,
  path: string,
  value: Printable,
  asked: Quantity | null,
  from: string = path,
): PrintedValue {
  const quantity = typeof value === "string" || typeof value === "boolean" ? null : asked;
  return {
    path,
    value,
    unit: quantity === null ? "" : baseUnit(quantity),
    shown: shown(value, quantity, setup.units),
    origin: originAt(setup, from),
  };
}

function shown(value: Printable, quantity: Quantity | null, units: UnitSystem): string {
  if (typeof value === "object" && value !== null)
    return value.map((one) => shown(short(one), quantity, units)).join(", ");
  return quantity === null || typeof value !== "number" ? String(value) : say(value, quantity, units);
}

/** Components of a direction have no end otherwise. */
const short = (value: number): number => Number(value.toPrecision(9));

/** The value's own origin, else that of what it stands in. */
function originAt(setup: ResolvedSetup, path: string): Origin {
  let at = path;
  while (at !== "") {
    const origin = setup.origins.get(at);
    if (origin !== undefined) return origin;
    at = at.slice(0, Math.max(at.lastIndexOf("."), at.lastIndexOf("["), 0));
  }
  return { kind: "default", file: "", line: -1, column: -1, text: "default" };
}

/** Quantities by schema and relative path, with items and names of windows left open; asked again for every tool. */
const quantities = new Map<Schema, Map<string, Quantity | null>>();

/** The quantity of a path below a value of this schema. */
function quantityIn(schema: Schema, path: string): Quantity | null {
  const key = path.replace(/\[\d+\]/g, ".[]").replace(/^windows\.(?:.*)\.(\w+)$/, "windows.[].$1");
  const known = quantities.get(schema) ?? new Map<string, Quantity | null>();
  quantities.set(schema, known);
  const before = known.get(key);
  if (before !== undefined) return before;
  // A list of numbers is printed as one value: its items have the quantity.
  const segments = key.split(".");
  const found = [...flatten(schemasAt(schema, segments)), ...flatten(schemasAt(schema, [...segments, ITEM]))];
  const quantity = found.find((one) => one.kind === "quantity");
  const result = quantity?.kind === "quantity" ? quantity.quantity : null;
  if (known.size < 1000) known.set(key, result);
  return result;
}
