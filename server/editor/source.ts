/** The name under which the editor shows our findings. */
export const SOURCE = "swarfline";
