import { parseArgs } from 'node:util';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { Chip } from '../../src-core/words/understand/chips.ts';
import { createUnderstanding } from '../../src-core/words/understand/understand.ts';
import { createWordBook } from '../../src-core/words/word-book.ts';
import { programVersion } from '../bootstrap/program-files.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import { UsageError } from './usage-error.ts';

/**
 * `understand "WORDS" [--printer NAME]... [--spool NAME]... [--json]`: what free words are read as.
 * Needs no casebook: printers and spools are those that are named.
 */
export function runUnderstand(folder: string, args: readonly string[]): void {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      json: { type: 'boolean' },
      printer: { type: 'string', multiple: true },
      spool: { type: 'string', multiple: true },
    },
    allowPositionals: true,
  });
  const text = positionals.join(' ').trim();
  if (text === '') throw new UsageError('understand takes a sentence: what is wrong, in your own words');
  const knowledge = readKnowledge(folder, programVersion(folder));
  const named = (labels: readonly string[] = []) => labels.map((label) => ({ id: label, label }));
  const understand = createUnderstanding(
    {
      observations: [...knowledge.observations.values()],
      conditions: [...knowledge.conditions.values()],
      materials: [...knowledge.materials.values()],
      remedies: [...knowledge.remedies.values()],
      printers: named(values.printer),
      spools: named(values.spool),
    },
    createWordBook(knowledge.words),
  );
  const chips = understand(text);
  process.stdout.write(
    values.json
      ? `${JSON.stringify({ text, chips: chips.map((chip) => ({ ...chip, label: labelOf(chip, knowledge) })) }, null, 2)}\n`
      : `${chipLines(chips, knowledge)}\n`,
  );
}

function chipLines(chips: readonly Chip[], knowledge: Knowledge): string {
  if (chips.length === 0) return 'Nothing understood. Say it in other words.';
  return chips
    .map((chip) => {
      const mark = chip.isSure ? '  ' : '? ';
      return `${mark}${labelOf(chip, knowledge)}: ${valueOf(chip)}  "${chip.said}"`;
    })
    .join('\n');
}

function valueOf(chip: Chip): string {
  switch (chip.kind) {
    case 'observation':
      return chip.value ?? 'present, not graded';
    case 'condition':
      return String(chip.value);
    case 'tried':
      return chip.outcome;
    case 'printer':
    case 'spool':
      return chip.id;
  }
}

function labelOf(chip: Chip, { observations, conditions, remedies }: Knowledge): string {
  switch (chip.kind) {
    case 'observation':
      return observations.get(chip.id)?.label ?? chip.id;
    case 'condition':
      return conditions.get(chip.id)?.label ?? chip.id;
    case 'tried':
      return `Tried: ${remedies.get(chip.id)?.label ?? chip.id}`;
    case 'printer':
    case 'spool':
      return chip.kind === 'printer' ? 'Printer' : 'Spool';
  }
}
