import type { TemperatureFigures } from './temperature-figures.ts';

/** Set values missed steadily by less than this are no news. */
const OFFSET_C = 2;
const DROOP_C = 5;
const DRIFT_C_PER_HOUR = 5;

/** What the log of a heater shows, in figures, beside what the guide asks. Temperatures in °C; the reader may convert them. */
export function remarksOnHeater(figures: TemperatureFigures): readonly string[] {
  const { held, heating, gaps, jumps, impossible, noiseC } = figures;
  const remarks: string[] = [];
  if (heating && heating.toC > heating.fromC)
    remarks.push(
      `Heats from ${heating.fromC.toFixed(0)} °C to ${heating.toC.toFixed(0)} °C in ${Math.round(heating.seconds)} s. Compare with what this machine usually takes: more than a third longer is too slow.`,
    );
  if (held) {
    const { meanErrorC, swingC, droopC, droopAtSeconds, driftCPerHour, periodSeconds } = held;
    const waves = periodSeconds === null ? '' : `, in waves of ${Math.round(periodSeconds)} s`;
    remarks.push(
      `Held for ${Math.round(held.seconds / 60)} min: swings by ${swingC.toFixed(1)} °C either way${waves}; neighbouring readings differ by ${noiseC.toFixed(1)} °C.`,
    );
    if (Math.abs(meanErrorC) > OFFSET_C)
      remarks.push(
        `Stays ${Math.abs(meanErrorC).toFixed(1)} °C ${meanErrorC < 0 ? 'below' : 'above'} the set value on average.`,
      );
    if (droopC > DROOP_C)
      remarks.push(
        `Its lowest was ${droopC.toFixed(1)} °C below the set value, after ${Math.round(droopAtSeconds)} s: see what the job did then.`,
      );
    if (Math.abs(driftCPerHour) > DRIFT_C_PER_HOUR)
      remarks.push(
        `Drifts ${driftCPerHour < 0 ? 'down' : 'up'} by ${Math.abs(driftCPerHour).toFixed(1)} °C an hour while held.`,
      );
  }
  if (jumps > 0) remarks.push(`${jumps} jumps faster than metal can change.`);
  if (impossible > 0) remarks.push(`${impossible} impossible readings.`);
  if (gaps.count > 0)
    remarks.push(
      `${gaps.count} gaps without readings, the longest ${Math.round(gaps.longestSeconds)} s: the line to the machine, or the log, dropped out.`,
    );
  return remarks;
}
