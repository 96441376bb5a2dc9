import { flowTexts } from '../words/en/flow.ts';
import { celsius, kelvin, type Message } from '../words/message.ts';
import type { TemperatureFigures } from './temperature-figures.ts';

const { m } = flowTexts;

/** Set values missed steadily by less than this are no news. */
const OFFSET_C = 2;
const DROOP_C = 5;
const DRIFT_C_PER_HOUR = 5;

/** What the log of a heater shows, in figures, beside what the guide asks. */
export function remarksOnHeater(figures: TemperatureFigures): readonly Message[] {
  const { held, heating, gaps, jumps, impossible, noiseC } = figures;
  const remarks: Message[] = [];
  if (heating && heating.toC > heating.fromC)
    remarks.push(
      m.heatsFromTo({
        from: celsius(heating.fromC),
        to: celsius(heating.toC),
        seconds: Math.round(heating.seconds),
      }),
    );
  if (held) {
    const { meanErrorC, swingC, droopC, droopAtSeconds, driftCPerHour, periodSeconds } = held;
    const hold = {
      minutes: Math.round(held.seconds / 60),
      swing: kelvin(swingC, 1),
      noise: kelvin(noiseC, 1),
    };
    remarks.push(
      periodSeconds === null
        ? m.heldWithSwing(hold)
        : m.heldWithWaves({ ...hold, seconds: Math.round(periodSeconds) }),
    );
    const by = (value: number) => ({ by: kelvin(Math.abs(value), 1) });
    if (Math.abs(meanErrorC) > OFFSET_C)
      remarks.push(meanErrorC < 0 ? m.staysBelow(by(meanErrorC)) : m.staysAbove(by(meanErrorC)));
    if (droopC > DROOP_C) remarks.push(m.droop({ ...by(droopC), seconds: Math.round(droopAtSeconds) }));
    if (Math.abs(driftCPerHour) > DRIFT_C_PER_HOUR)
      remarks.push(driftCPerHour < 0 ? m.driftsDown(by(driftCPerHour)) : m.driftsUp(by(driftCPerHour)));
  }
  if (jumps > 0) remarks.push(m.jumps({ count: jumps }));
  if (impossible > 0) remarks.push(m.impossibleReadings({ count: impossible }));
  if (gaps.count > 0) remarks.push(m.gaps({ count: gaps.count, seconds: Math.round(gaps.longestSeconds) }));
  return remarks;
}
