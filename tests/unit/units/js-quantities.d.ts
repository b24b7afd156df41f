declare module "js-quantities" {
  /** What the tests use of it. */
  export default class Qty {
    constructor(value: number, unit: string);
    to(unit: string): Qty;
    readonly scalar: number;
  }
}
