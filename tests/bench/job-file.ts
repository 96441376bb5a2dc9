import { JobReader } from '../../src-core/flow/job-reader.ts';
import { medianMs } from './median.ts';

const MEGABYTES = 16;
const PIECE = 512 * 1024;

/** A job like real ones: short moves, travels, retractions, comments, layers. */
function syntheticJob(bytes: number): Uint8Array {
  const lines: string[] = ['G21', 'G90', 'M83', 'M104 S215', 'G28'];
  let size = 0;
  for (let layer = 1, k = 0; size < bytes; layer++) {
    const z = (0.2 * layer).toFixed(2);
    lines.push(`;LAYER ${layer}`, `G0 F9000 X10 Y10 Z${z}`);
    for (let i = 0; i < 400; i++, k++) {
      const x = (100 + 50 * Math.sin(k * 0.37)).toFixed(3);
      const y = (100 + 50 * Math.cos(k * 0.61)).toFixed(3);
      lines.push(i % 50 === 0 ? `G1 E-0.8 F2400\nG0 X${x} Y${y}\nG1 E0.8` : `G1 X${x} Y${y} E0.04321 F1800`);
    }
    size = lines.length * 34;
  }
  return new TextEncoder().encode(lines.join('\n'));
}

/** Throughput of reading a job file, in MB/s, against splitting the same text into lines and doing nothing with them. */
export function benchJobFile(print: (name: string, ms: number) => void): void {
  const bytes = syntheticJob(MEGABYTES * 1e6);
  const megabytes = bytes.length / 1e6;
  const reading = medianMs(() => {
    const reader = new JobReader({ filamentDiameterMm: 1.75 });
    for (let at = 0; at < bytes.length; at += PIECE) reader.push(bytes.subarray(at, at + PIECE));
    reader.end();
  }, 5);
  const splitting = medianMs(() => new TextDecoder().decode(bytes).split('\n').length, 5);
  console.log(`\njob file: ${megabytes.toFixed(1)} MB of plain G-code`);
  print(`reading, ${(megabytes / (reading / 1000)).toFixed(0)} MB/s`, reading);
  print(`only splitting into lines, ${(megabytes / (splitting / 1000)).toFixed(0)} MB/s`, splitting);
}
