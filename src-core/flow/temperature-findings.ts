import type { TemperatureFigures } from './temperature-figures.ts';

/** A finding of the guide that a log of the nozzle's temperature answers. */
export interface LogFinding {
  readonly observation: string;
  readonly value: string;
  readonly because: string;
}

/** The guide's own bounds: more than 2 °C around the set value is slight, more than 5 °C heavy; 8 °C over is an overshoot. */
const SLIGHT_SWING_C = 2;
const HEAVY_SWING_C = 5;
const OVERSHOOT_C = 8;
/** The guide has the reading watched for five minutes before it counts as steady. */
const WATCHED_SECONDS = 300;
/** Slower logs miss what a watcher sees. */
const LONGEST_STEP_SECONDS = 5;
/** A cold machine reads as the room does. */
const ROOM_C: readonly [number, number] = [5, 45];

/**
 * Findings that follow from a log of the nozzle with times. Only what the log shows is answered, and "absent" only where the
 * guide's own check would count it: long enough, often enough. Whether it heats as fast as this machine usually does, and
 * whether the head moved while the reading was smooth, no log says.
 */
export function findingsOf(figures: TemperatureFigures): readonly LogFinding[] {
  const findings: LogFinding[] = [];
  const add = (observation: string, value: string, because: string) =>
    findings.push({ observation, value, because });
  const { held, jumps, impossible, firstFaultAtSeconds, heating, usualStepSeconds } = figures;
  const when = firstFaultAtSeconds === null ? '' : `, first after ${Math.round(firstFaultAtSeconds)} s`;
  const isWatched = (seconds: number) =>
    seconds >= WATCHED_SECONDS && usualStepSeconds <= LONGEST_STEP_SECONDS;
  if (held) {
    const { swingC, periodSeconds } = held;
    const grade = swingC > HEAVY_SWING_C ? 'heavy' : swingC > SLIGHT_SWING_C ? 'slight' : 'none';
    if (grade !== 'none' || isWatched(held.seconds))
      add(
        'temperature-wobbles',
        grade,
        `Held for ${Math.round(held.seconds / 60)} min it swings by ${swingC.toFixed(1)} °C either way.`,
      );
    if (grade !== 'none' && periodSeconds !== null)
      add('temperature-swings-regularly', 'present', `Even waves of ${Math.round(periodSeconds)} s.`);
    else if (grade !== 'none' && isWatched(held.seconds))
      add('temperature-swings-regularly', 'absent', 'The swing has no steady period.');
  }
  if (jumps > 0) add('reading-jumps', 'present', `${jumps} jumps faster than metal can change${when}.`);
  if (impossible > 0)
    add(
      'reading-impossible',
      'present',
      `${impossible} of ${figures.readings} readings are impossible${when}.`,
    );
  else if (heating && heating.fromC >= ROOM_C[0] && heating.fromC <= ROOM_C[1])
    add(
      'reading-impossible',
      'absent',
      `Cold it read ${heating.fromC.toFixed(0)} °C, and no reading is impossible.`,
    );
  if (heating?.isStuck)
    add(
      'heats-too-slowly',
      'present',
      `It never came near ${heating.targetC} °C and no longer rose: ${heating.toC.toFixed(0)} °C at last.`,
    );
  if (heating && heating.overshootC !== null)
    add(
      'overshoots-on-heat-up',
      heating.overshootC > OVERSHOOT_C ? 'present' : 'absent',
      `It went ${heating.overshootC.toFixed(1)} °C over the set value on heating up.`,
    );
  return findings;
}
