import { inEnglish } from '../../src-core/words/in-english.ts';
import { parseArgs } from 'node:util';
import { jobMachineSchema, type JobReport } from '../../src-core/contract/job-report.ts';
import { JobFileError, reportOnJob } from '../../src-core/flow/index.ts';
import { programVersion } from '../bootstrap/program-files.ts';
import { readJobFile } from '../job-files/read-job-file.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import { UsageError } from './usage-error.ts';

/** `job FILE [--nozzle MM] [--polymer ID] [--melt-zone short|long|extra-long] [--filament MM] [--json]`. */
export async function runJob(folder: string, args: readonly string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      nozzle: { type: 'string' },
      polymer: { type: 'string' },
      'melt-zone': { type: 'string' },
      filament: { type: 'string' },
      json: { type: 'boolean' },
    },
    allowPositionals: true,
  });
  const [file] = positionals;
  if (!file || positionals.length > 1) throw new UsageError('job takes one job file');
  const machine = jobMachineSchema.safeParse({
    nozzleMm: values.nozzle === undefined ? null : Number(values.nozzle),
    polymer: values.polymer ?? null,
    meltZone: values['melt-zone'] ?? null,
    ...(values.filament !== undefined && { filamentDiameterMm: Number(values.filament) }),
  });
  if (!machine.success)
    throw new UsageError(
      machine.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`).join('; '),
    );
  const knowledge = readKnowledge(folder, programVersion(folder));
  if (machine.data.polymer !== null && !knowledge.materials.has(machine.data.polymer))
    throw new UsageError(`this guide knows no polymer "${machine.data.polymer}"`);
  const report = reportOnJob(knowledge, await figuresOf(file, machine.data), machine.data);
  process.stdout.write(values.json ? `${JSON.stringify(report, null, 2)}\n` : jobText(report));
}

async function figuresOf(file: string, machine: Parameters<typeof readJobFile>[1]) {
  let shown = -1;
  const onProgress = (share: number) => {
    const percent = Math.floor(20 * share) * 5;
    if (percent === shown || !process.stderr.isTTY) return;
    shown = percent;
    process.stderr.write(`\r${percent} %${percent === 100 ? '\n' : ''}`);
  };
  try {
    return await readJobFile(file, machine, { onProgress });
  } catch (error) {
    if (error instanceof JobFileError) throw new UsageError(`${file}: ${error.message}`, false);
    if (error instanceof Error && 'code' in error) throw new UsageError(`${file}: ${error.message}`, false);
    throw error;
  }
}

function jobText(report: JobReport): string {
  const readings = report.readings.map(
    ({ label, valueLabel, because }) => `  ${label}: ${inEnglish(valueLabel)} – ${inEnglish(because)}`,
  );
  const remarks = report.remarks.map(
    ({ text, at }) =>
      `  ${at ? (at.layer > 0 ? `layer ${at.layer}, line ${at.line}: ` : `line ${at.line}: `) : ''}${inEnglish(text)}`,
  );
  return [
    `${report.lines} lines, ${report.layerCount} layers, ${(report.filamentMm / 1000).toFixed(2)} m of filament, ${Math.round(report.seconds / 60)} min without acceleration`,
    '',
    ...readings,
    ...(remarks.length > 0 ? ['', ...remarks] : []),
    '',
  ].join('\n');
}
