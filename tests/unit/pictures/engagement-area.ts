/** What a path covers: an independent reading of the path data of a picture. */
type Point = readonly [x: number, y: number];

/** The loops of a path of M, L, A and Z, arcs cut into short straight pieces. */
export function loopsOf(d: string): Point[][] {
  const loops: Point[][] = [];
  let at: Point = [0, 0];
  for (const [, command, written] of d.matchAll(/([MLAZ])([^MLAZ]*)/g)) {
    const n = (written ?? "").trim().split(/[ ,]+/).map(Number);
    if (command === "Z") continue;
    const to: Point = [n.at(-2) ?? Number.NaN, n.at(-1) ?? Number.NaN];
    if (command === "M") loops.push([to]);
    else if (command === "L") loops.at(-1)?.push(to);
    else loops.at(-1)?.push(...arcPoints(at, to, n[0] ?? 0, n[4] === 1));
    at = to;
  }
  return loops;
}

/** Of an arc below half a turn; the y of a picture goes down, so `clockwise` is sweep 1. */
function arcPoints(a: Point, b: Point, radius: number, clockwise: boolean): Point[] {
  const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (chord === 0) return [];
  const height = Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4));
  const side = clockwise ? 1 : -1;
  const cx = (a[0] + b[0]) / 2 - (side * height * (b[1] - a[1])) / chord;
  const cy = (a[1] + b[1]) / 2 + (side * height * (b[0] - a[0])) / chord;
  const from = Math.atan2(a[1] - cy, a[0] - cx);
  let turn = Math.atan2(b[1] - cy, b[0] - cx) - from;
  if (clockwise && turn < 0) turn += 2 * Math.PI;
  if (!clockwise && turn > 0) turn -= 2 * Math.PI;
  const steps = Math.max(1, Math.ceil(Math.abs(turn) / 0.02));
  const r = Math.hypot(a[0] - cx, a[1] - cy);
  return Array.from({ length: steps }, (_, i) => {
    const angle = from + (turn * (i + 1)) / steps;
    return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)] as const;
  });
}

export function lengthOf(d: string): number {
  let sum = 0;
  for (const loop of loopsOf(d)) {
    for (let i = 1; i < loop.length; i++) {
      const [a, b] = [loop[i - 1] as Point, loop[i] as Point];
      sum += Math.hypot(b[0] - a[0], b[1] - a[1]);
    }
  }
  return sum;
}

/** Area and middle of what an even-odd fill covers, by horizontal lines. */
export function covered(d: string): { area: number; x: number; y: number } {
  const loops = loopsOf(d);
  const ys = loops.flat().map((p) => p[1]);
  const top = Math.min(...ys);
  const lines = 400;
  const step = (Math.max(...ys) - top) / lines;
  const sum = { area: 0, x: 0, y: 0 };
  for (let i = 0; i < lines; i++) {
    const y = top + (i + 0.5) * step;
    const crossings: number[] = [];
    for (const loop of loops) {
      for (const [j, a] of loop.entries()) {
        const b = loop[(j + 1) % loop.length] as Point;
        if (a[1] <= y !== b[1] <= y) crossings.push(a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]));
      }
    }
    crossings.sort((p, q) => p - q);
    for (let j = 0; j + 1 < crossings.length; j += 2) {
      const [from, to] = [crossings[j] as number, crossings[j + 1] as number];
      sum.area += (to - from) * step;
      sum.x += ((to * to - from * from) / 2) * step;
      sum.y += y * (to - from) * step;
    }
  }
  return sum.area === 0 ? sum : { area: sum.area, x: sum.x / sum.area, y: sum.y / sum.area };
}

/** Least contrast of any colour of a picture with the grounds of a light, a dark and a high-contrast editor (WCAG 2.1). */
export function leastContrast(svg: string): number {
  const light = (hex: string): number => {
    const [r, g, b] = [1, 3, 5].map((i) => {
      const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
      return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    }) as [number, number, number];
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  let least = Number.POSITIVE_INFINITY;
  for (const colour of new Set(svg.match(/#[0-9a-f]{6}\b/gi))) {
    for (const ground of ["#ffffff", "#1e1e1e", "#000000"]) {
      const [a, b] = [light(colour), light(ground)];
      least = Math.min(least, (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05));
    }
  }
  return least;
}

/** Whether an even-odd fill covers the point. */
export function covers(d: string, x: number, y: number): boolean {
  let inside = false;
  for (const loop of loopsOf(d)) {
    for (const [j, a] of loop.entries()) {
      const b = loop[(j + 1) % loop.length] as Point;
      if (a[1] <= y !== b[1] <= y && a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) > x) inside = !inside;
    }
  }
  return inside;
}
