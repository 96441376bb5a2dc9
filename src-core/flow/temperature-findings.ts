import type { TemperatureFigures } from './temperature-figures.ts';

/** A finding of the guide that a temperature log answers. */
export interface LogFinding {
  readonly observation: string;
  readonly value: string;
  readonly because: string;
}

/** The guide's own bounds: more than 2 °C around the set value is slight, more than 5 °C heavy; 8 °C over is an overshoot. */
const SLIGHT_SWING_C = 2;
const HEAVY_SWING_C = 5;
const OVERSHOOT_C = 8;
/** A hot end that heats more slowly than this has too little power or loses it. Common practice, from memory. */
const SLOW_NOZZLE_C_PER_S = 0.8;
const SLOW_PLATE_C_PER_S = 0.1;

/** Findings that follow from a log of the nozzle ("T") or the plate ("B"), both for and against. */
export function findingsOf(figures: TemperatureFigures, heater: 'T' | 'B'): readonly LogFinding[] {
  const findings: LogFinding[] = [];
  const add = (observation: string, value: string, because: string) =>
    findings.push({ observation, value, because });
  const { held, jumps, impossible, firstFaultAtSeconds, heatingCPerS, overshootC } = figures;
  const when = firstFaultAtSeconds === null ? '' : `, first after ${Math.round(firstFaultAtSeconds)} s`;
  if (held) {
    const around = Math.max(held.swingC, Math.abs(held.meanErrorC));
    const grade = around > HEAVY_SWING_C ? 'heavy' : around > SLIGHT_SWING_C ? 'slight' : 'none';
    const period = held.periodSeconds === null ? '' : `, in waves of ${Math.round(held.periodSeconds)} s`;
    add(
      'temperature-wobbles',
      grade,
      `Held for ${Math.round(held.seconds / 60)} min it stayed within ${around.toFixed(1)} °C of the set value${period}; its lowest was ${held.droopC.toFixed(1)} °C below, after ${Math.round(held.droopAtSeconds)} s.`,
    );
    if (grade !== 'none')
      add(
        'temperature-swings-regularly',
        held.periodSeconds === null ? 'absent' : 'present',
        held.periodSeconds === null
          ? 'The swing has no steady period.'
          : `Even waves of ${Math.round(held.periodSeconds)} s.`,
      );
  }
  add(
    'reading-jumps',
    jumps > 0 ? 'present' : 'absent',
    `${jumps} jumps faster than metal can change${when}.`,
  );
  add(
    'reading-impossible',
    impossible > 0 ? 'present' : 'absent',
    `${impossible} of ${figures.readings} readings cannot be${impossible > 0 ? when : ''}.`,
  );
  if (heatingCPerS !== null) {
    const slow = heater === 'T' ? SLOW_NOZZLE_C_PER_S : SLOW_PLATE_C_PER_S;
    add(
      'heats-too-slowly',
      heatingCPerS < slow ? 'present' : 'absent',
      `It heats at ${heatingCPerS.toFixed(2)} °C a second; ${slow} and more is usual.`,
    );
    add(
      'overshoots-on-heat-up',
      overshootC > OVERSHOOT_C ? 'present' : 'absent',
      `It went ${overshootC.toFixed(1)} °C over the set value on heating up.`,
    );
  }
  return findings;
}
