/** What every reader of a result must be told: README, `--help` and reports print this same text. */
export const CAUTIONS: readonly string[] = [
  "Results are estimates with a band: published methods differ by a factor of two for one hole, and Swarfline shows that spread instead of one number.",
  "Swarfline does not check collisions, fixtures and clamping, the state of the machine, its tools or its coolant.",
  "The rules of the shop and the people licensed for the machine decide.",
  "Mind the usual dangers: the disc that an insert drill frees at breakthrough, which rotating work can throw; magnesium and titanium chips, which burn; work that lifts at breakthrough; doors and guards that must be shut.",
];

/** The same in one line, under a list of findings. */
export const CAUTION_LINE =
  "Estimates with a band. Not checked: collisions, fixtures, clamping, the machine's own state. The shop's rules decide.";
