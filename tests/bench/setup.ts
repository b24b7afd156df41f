/** Machine, tools and part of the bench programs (invented). */
const tools = Array.from({ length: 24 }, (_, i) => {
  const DC = 4 + i;
  return `    - { T: ${i + 1}, family: twist-hss, DC: ${DC}, SIG: 118, LU: ${DC * 12}, NOF: 2, coolant: external,
        windows: [{ group: P, vc: [15, 22, 30], f: [${DC * 0.006}, ${DC * 0.012}, ${DC * 0.02}] }] }`;
}).join("\n");

export const SETUP = `units: mm
programs:
  - { files: "**/*.nc", machine: bench, tools: bench, workpiece: plate }
machines:
  bench:
    dialect: generic-mill
    spindle:
      maxRpm: 9000
      continuous: [{ rpm: 0, torque: 240 }, { rpm: 1000, torque: 240 }, { rpm: 9000, power: 25 }]
      drive: belt
    axis: { maxFeed: 10000, rapid: 24000, thrust: 20 kN }
    coolant: { M8: { kind: flood, pressure: 2, flow: 60 } }
tools:
  bench:
${tools}
workpieces:
  plate: { material: S275JR, hardness: 140 HB }
`;
