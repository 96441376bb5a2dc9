import { flowTexts } from '../words/en/flow.ts';
import { celsius, kelvin, type Message } from '../words/message.ts';
import type { TemperatureFigures } from './temperature-figures.ts';

const { m } = flowTexts;

/** A finding of the guide that a log of the nozzle's temperature answers. */
export interface LogFinding {
  readonly observation: string;
  readonly value: string;
  readonly because: Message;
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
  const add = (observation: string, value: string, because: Message) =>
    findings.push({ observation, value, because });
  const { held, jumps, impossible, firstFaultAtSeconds, heating, usualStepSeconds } = figures;
  const first = firstFaultAtSeconds === null ? null : { seconds: Math.round(firstFaultAtSeconds) };
  const isWatched = (seconds: number) =>
    seconds >= WATCHED_SECONDS && usualStepSeconds <= LONGEST_STEP_SECONDS;
  if (held) {
    const { swingC, periodSeconds } = held;
    const grade = swingC > HEAVY_SWING_C ? 'heavy' : swingC > SLIGHT_SWING_C ? 'slight' : 'none';
    if (grade !== 'none' || isWatched(held.seconds))
      add(
        'temperature-wobbles',
        grade,
        m.swingWhileHeld({ minutes: Math.round(held.seconds / 60), swing: kelvin(swingC, 1) }),
      );
    if (grade !== 'none' && periodSeconds !== null)
      add('temperature-swings-regularly', 'present', m.waves({ seconds: Math.round(periodSeconds) }));
    else if (grade !== 'none' && isWatched(held.seconds))
      add('temperature-swings-regularly', 'absent', m.noSteadyPeriod());
  }
  if (jumps > 0)
    add(
      'reading-jumps',
      'present',
      first ? m.jumpsFirst({ count: jumps, ...first }) : m.jumps({ count: jumps }),
    );
  if (impossible > 0)
    add(
      'reading-impossible',
      'present',
      first
        ? m.impossibleOfReadingsFirst({ count: impossible, readings: figures.readings, ...first })
        : m.impossibleOfReadings({ count: impossible, readings: figures.readings }),
    );
  else if (heating && heating.fromC >= ROOM_C[0] && heating.fromC <= ROOM_C[1])
    add('reading-impossible', 'absent', m.coldReading({ from: celsius(heating.fromC) }));
  if (heating?.isStuck)
    add(
      'heats-too-slowly',
      'present',
      m.neverReached({ target: celsius(heating.targetC), reached: celsius(heating.toC) }),
    );
  if (heating && heating.overshootC !== null)
    add(
      'overshoots-on-heat-up',
      heating.overshootC > OVERSHOOT_C ? 'present' : 'absent',
      m.overshoot({ by: kelvin(heating.overshootC, 1) }),
    );
  return findings;
}
