import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import { readXmlbif } from '../../src-core/inference/index.ts';
import { runCommand } from '../../src-main/command/run-command.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const COMMAND = path.join(import.meta.dirname, '..', '..', 'src-main', 'command', 'index.ts');

/** In this process: what a command prints and its exit code. "-" is a file of the input, since there is one standard input. */
async function run(args: readonly string[], input = '', folder = temporaryFolder()) {
  const inputFile = path.join(folder, 'standard-input');
  if (args.includes('-')) writeFileSync(inputFile, input);
  const printed = { out: '', err: '' };
  const keep = (into: keyof typeof printed) => (text: string | Uint8Array) => {
    printed[into] += String(text);
    return true;
  };
  const [casebookBefore, codeBefore] = [process.env['BEADWRIGHT_CASEBOOK'], process.exitCode];
  process.env['BEADWRIGHT_CASEBOOK'] = path.join(folder, 'casebook.sqlite');
  process.exitCode = 0;
  const out = vi.spyOn(process.stdout, 'write').mockImplementation(keep('out'));
  const err = vi.spyOn(process.stderr, 'write').mockImplementation(keep('err'));
  try {
    await runCommand(args.map((word) => (word === '-' ? inputFile : word)));
    return { code: process.exitCode, ...printed };
  } finally {
    out.mockRestore();
    err.mockRestore();
    process.exitCode = codeBefore;
    if (casebookBefore === undefined) delete process.env['BEADWRIGHT_CASEBOOK'];
    else process.env['BEADWRIGHT_CASEBOOK'] = casebookBefore;
  }
}

/** The same as a process of its own, as a shell starts it. */
function runProcess(args: readonly string[], input = '', folder = temporaryFolder()) {
  const result = spawnSync(process.execPath, [COMMAND, ...args], {
    input,
    encoding: 'utf8',
    // The whole network as text is larger than what is kept by default.
    maxBuffer: 256 * 1024 * 1024,
    env: { ...process.env, BEADWRIGHT_CASEBOOK: path.join(folder, 'casebook.sqlite') },
  });
  return { code: result.status, out: result.stdout, err: result.stderr };
}

const diagnosisSchema = z.strictObject({
  exact: z.boolean(),
  setAside: z.array(z.string()),
  candidates: z.array(
    z.strictObject({
      cause: z.string(),
      label: z.string(),
      probability: z.number().min(0).max(1),
      because: z.array(z.strictObject({ finding: z.string(), decibans: z.number() })),
    }),
  ),
  conflict: z.number(),
  next: z.strictObject({
    kind: z.enum(['check', 'remedy', 'hand-over']),
    id: z.string(),
    minutes: z.number(),
    expectedCostOfRepair: z.number(),
  }),
  remedies: z.array(
    z.strictObject({ id: z.string(), repairProbability: z.number().min(0).max(1), minutes: z.number() }),
  ),
});

async function diagnose(caseFile: unknown) {
  const { code, out, err } = await run(['diagnose', '-', '--json'], JSON.stringify(caseFile));
  expect(err).toBe('');
  expect(code).toBe(0);
  return diagnosisSchema.parse(JSON.parse(out));
}

/** Nine to the ninth entries, were it taken at its word. */
const ALIAS_BOMB = [
  'findings:',
  '  a: &a [x, x, x, x, x, x, x, x, x]',
  ...[...'bcdefghi'].map((name, index) => {
    const before = 'abcdefghi'[index];
    return `  ${name}: &${name} [${Array.from({ length: 9 }, () => `*${before}`).join(', ')}]`;
  }),
].join('\n');

const FIVE_SIGNS = {
  'popping-while-loading': 'present',
  'vapour-at-head': 'present',
  'bubbly-free-air-extrusion': 'present',
  'weak-layer-bonds': 'present',
  'repeated-nozzle-clog': 'present',
};

describe('diagnose', () => {
  it.each(Object.keys(FIVE_SIGNS))(
    '%s alone: an exact falling ranking with reasons and a next step',
    async (sign) => {
      const diagnosis = await diagnose({ findings: { [sign]: 'present' } });
      expect(diagnosis.exact).toBe(true);
      const probabilities = diagnosis.candidates.map(({ probability }) => probability);
      expect(probabilities).toEqual(probabilities.toSorted((a, b) => b - a));
      expect(diagnosis.candidates.map(({ cause }) => cause)).toContain('cause-not-in-guide');
      expect(diagnosis.candidates[0]?.because.map(({ finding }) => finding)).toContain(sign);
      expect(diagnosis.remedies.length).toBeGreaterThan(0);
    },
  );

  it('the three signs of steam together make wet filament the clear first, absent they sink it', async () => {
    const signs = {
      'popping-while-loading': 'heavy',
      'vapour-at-head': 'slight',
      'bubbly-free-air-extrusion': 'heavy',
    };
    const present = await diagnose({ findings: signs });
    expect(present.candidates[0]).toMatchObject({ cause: 'wet-filament' });
    // The clear first: likelier than not, and twice as likely as the next.
    expect(present.candidates[0]?.probability).toBeGreaterThan(0.5);
    expect(present.candidates[0]?.probability).toBeGreaterThan(2 * (present.candidates[1]?.probability ?? 1));
    const absent = await diagnose({
      findings: Object.fromEntries(Object.keys(signs).map((sign) => [sign, 'absent'])),
    });
    expect(absent.candidates.find(({ cause }) => cause === 'wet-filament')?.probability).toBeLessThan(0.02);
  });

  it('a remedy that was tried in vain lowers what it would have removed', async () => {
    const findings = { 'popping-while-loading': 'heavy', 'weak-layer-bonds': 'slight' };
    const wet = async (tried: unknown[]) =>
      (await diagnose({ findings, tried })).candidates.find(({ cause }) => cause === 'wet-filament')
        ?.probability ?? 0;
    expect(await wet([{ remedy: 'dry-the-spool', outcome: 'not-cured' }])).toBeLessThan(
      0.7 * (await wet([])),
    );
  });

  it('unknown findings change nothing', async () => {
    const findings = { 'repeated-nozzle-clog': 'present' };
    expect(await diagnose({ findings: { ...findings, stringing: 'unknown' } })).toEqual(
      await diagnose({ findings }),
    );
  });

  it('nothing at all is answered too', async () => {
    expect((await diagnose({})).candidates.length).toBeGreaterThan(20);
  });

  it.each([
    [
      'an unknown observation',
      { findings: { 'poping-while-loading': 'present' } },
      '"popping-while-loading"',
    ],
    ['an unknown grade', { findings: { stringing: 'heavyy' } }, '"heavy"'],
    ['an unknown condition', { conditions: { polymr: 'abs' } }, '"polymer"'],
    ['an unknown polymer', { conditions: { polymer: 'petgg' } }, '"petg"'],
    ['a nozzle out of range', { conditions: { 'nozzle-mm': 40 } }, 'between 0.1 and 2 mm'],
    ['an unknown remedy', { tried: [{ remedy: 'dry-the-spol', outcome: 'cured' }] }, '"dry-the-spool"'],
    ['an unknown outcome', { tried: [{ remedy: 'dry-the-spool', outcome: 'gone' }] }, 'cured'],
    ['an unknown key', { finding: {} }, 'finding'],
    ['a list instead of a case', [], 'object'],
  ])('%s ends with exit code 2 and says what would be right', async (_what, caseFile, hint) => {
    const { code, out, err } = await run(['diagnose', '-'], JSON.stringify(caseFile));
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(hint);
  });

  it.each([
    ['a file that is not there', ['diagnose', 'no-such-file.yaml'], ''],
    ['broken YAML', ['diagnose', '-'], 'findings: {a: [}'],
    ['no file', ['diagnose'], ''],
    ['an unknown command', ['diagnoze'], ''],
    ['B9, attack, low: an unknown flag', ['diagnose', '--jsonn', '-'], ''],
    ['B9: an unknown flag of another command', ['knowledge', 'check', '--thorou'], ''],
    ['a flag that backups do not know', ['backups', 'list', '--json'], ''],
    ['attack, low: aliases that multiply', ['diagnose', '-'], ALIAS_BOMB],
    ['a file of two megabytes', ['diagnose', '-'], `findings: {}\n${'# filler\n'.repeat(250_000)}`],
    [
      'attack, low: __proto__, a key that the language keeps for itself',
      ['diagnose', '-'],
      'findings: { __proto__: present }',
    ],
    ['attack, low: a guide that is not there', ['knowledge', 'check', '/no/such/folder'], ''],
    [
      'attack, low: an export into a folder that is not there',
      ['cases', 'export', '/no/such/folder/x.jsonl'],
      '',
    ],
    ['an import of a file that is not there', ['cases', 'import', '/no/such/file.jsonl'], ''],
  ])('%s ends with exit code 2 and no stack', async (_what, args, input) => {
    const { code, err } = await run(args, input);
    expect(code).toBe(2);
    expect(err).not.toContain('    at ');
  });
});

describe('knowledge', () => {
  it('list gives every kind with the ids that tools rely on', async () => {
    const list = z
      .record(z.string(), z.array(z.looseObject({ id: z.string(), label: z.string() })))
      .parse(JSON.parse((await run(['knowledge', 'list', '--json'])).out));
    expect(Object.keys(list).sort()).toEqual(
      ['causes', 'conditions', 'materials', 'mechanisms', 'observations', 'practices', 'remedies'].sort(),
    );
    const ids = (kind: string) => (list[kind] ?? []).map(({ id }) => id);
    expect(ids('observations')).toEqual(expect.arrayContaining(Object.keys(FIVE_SIGNS)));
    expect(ids('causes')).toEqual(
      expect.arrayContaining([
        'wet-filament',
        'nozzle-too-small-for-filler',
        'heat-creep',
        'partial-nozzle-clog',
        'cause-not-in-guide',
      ]),
    );
    const polymers = (list['conditions'] ?? []).find(({ id }) => id === 'polymer');
    expect(polymers).toMatchObject({
      kind: 'choice',
      values: expect.arrayContaining(['pla', 'petg', 'abs', 'asa', 'pc', 'pa6', 'pa12', 'tpu']),
    });
  });

  it('export-network prints the network, with the priors that the conditions of a case give', async () => {
    const priorOf = async (cause: string, args: readonly string[], input = '') => {
      const { code, out, err } = await run(['knowledge', 'export-network', ...args], input);
      expect(err).toBe('');
      expect(code).toBe(0);
      const reading = readXmlbif(out);
      if (!reading.ok) throw new Error(`line ${reading.line}: ${reading.message}`);
      const { variables, outcomes } = reading.network;
      const popping = variables.findIndex(({ id }) => id === 'popping-while-loading');
      expect(outcomes[popping]?.length).toBeGreaterThan(1);
      return variables.find(({ id }) => id === cause)?.table[1] ?? NaN;
    };
    const plain = await priorOf('wet-filament', []);
    const openlyStored = await priorOf(
      'wet-filament',
      ['--conditions', '-'],
      JSON.stringify({ conditions: { polymer: 'pa6', storage: 'open' } }),
    );
    expect(plain).toBeGreaterThan(0);
    expect(openlyStored).toBeGreaterThan(plain);
  });

  it('check finds nothing in the shipped guide', async () => {
    const { code, out } = await run(['knowledge', 'check']);
    expect(out).toContain('no faults');
    expect(code).toBe(0);
  });
});

describe('commands that only read', () => {
  it('make no backup; one that writes makes one first', async () => {
    const folder = temporaryFolder();
    for (const args of [
      ['cases', 'export'],
      ['backups', 'list'],
      ['cases', 'export'],
    ])
      await run(args, '', folder);
    expect(existsSync(path.join(folder, 'backups'))).toBe(false);
    const file = path.join(folder, 'none.jsonl');
    writeFileSync(file, '');
    expect((await run(['cases', 'import', file], '', folder)).code).toBe(0);
    expect(readdirSync(path.join(folder, 'backups'))).toHaveLength(1);
  });
});

describe('cases', () => {
  it('export writes what import reads', async () => {
    const folder = temporaryFolder();
    const file = path.join(folder, 'cases.jsonl');
    expect(await run(['cases', 'export', file], '', folder)).toMatchObject({ code: 0 });
    expect(readFileSync(file, 'utf8')).toBe('');
    writeFileSync(file, '{"format":"something else"}\n');
    const imported = await run(['cases', 'import', file], '', folder);
    expect(imported.code).toBe(2);
    expect(imported.err).toContain('cases.jsonl:1');
  });
});

describe('cases import --dry-run', () => {
  it('says what would come in, what is here already and which lines cannot be used, and writes nothing', async () => {
    const { dispatcher } = await programInMemory();
    for (const value of ['slight', 'heavy'])
      await dispatcher.call('case:open', { complaints: [{ observation: 'stringing', value }] });
    const exported = await dispatcher.call('case:export', {});
    if (!exported.ok) throw new Error(exported.error.message);
    const [first, second] = exported.value.jsonLines.split('\n');
    const folder = temporaryFolder();
    const file = path.join(folder, 'cases.jsonl');
    writeFileSync(file, `${first}\n{"format":"something else"}\n${second}\n`);
    const tried = await run(['cases', 'import', file, '--dry-run'], '', folder);
    expect(tried.out).toBe(
      '2 cases would be imported (nothing was written), 0 already here, 1 lines not usable\n',
    );
    expect(tried.err).toContain('cases.jsonl:2: ');
    expect(tried.code).toBe(2);
    expect(existsSync(path.join(folder, 'backups'))).toBe(false);
    expect((await run(['cases', 'export'], '', folder)).out).toBe('');
    expect((await run(['cases', 'import', file], '', folder)).out).toMatch(
      /^2 cases imported, 0 already here/,
    );
    expect((await run(['cases', 'import', file, '--dry-run'], '', folder)).out).toMatch(
      /^0 cases would be imported .*, 2 already here/,
    );
    expect((await run(['cases', 'export', '--dry-run'], '', folder)).err).toContain(
      'cases knows no --dry-run',
    );
  });
});

describe('understand', () => {
  const understoodSchema = z.object({
    text: z.string(),
    chips: z.array(
      z.object({
        kind: z.string(),
        id: z.string(),
        label: z.string(),
        said: z.string(),
        isSure: z.boolean(),
        score: z.number().min(0).max(1),
      }),
    ),
  });

  it('prints the chips of a sentence, each with the words it came from', async () => {
    const { code, out, err } = await run([
      'understand',
      'heavy stringing on Heron, new spool of black ABS, 0.6 nozzle, 250 degrees',
      '--printer',
      'Heron',
      '--json',
    ]);
    expect(err).toBe('');
    expect(code).toBe(0);
    const { chips } = understoodSchema.parse(JSON.parse(out));
    expect(chips.filter(({ isSure }) => isSure).map(({ id, said }) => [id, said])).toEqual([
      ['stringing', 'stringing'],
      ['Heron', 'Heron'],
      ['last-change', 'new spool'],
      ['polymer', 'ABS'],
      ['nozzle-mm', '0.6 nozzle'],
      ['nozzle-temperature', '250 degrees'],
    ]);
  });

  it('wants a sentence', async () => expect((await run(['understand'])).code).toBe(2));
});

describe('as a process of its own', () => {
  it('reads standard input, prints the same and ends with the exit code', async () => {
    const caseFile = JSON.stringify({ findings: FIVE_SIGNS });
    const started = runProcess(['diagnose', '-', '--json'], caseFile);
    expect(started).toEqual(await run(['diagnose', '-', '--json'], caseFile));
    expect(started.code).toBe(0);
  });

  it('says what is wrong without a stack', () => {
    const { code, out, err } = runProcess(['diagnose', '--jsonn', '-']);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('--jsonn');
    expect(err).not.toContain('    at ');
  });

  it('exports to standard output', () => {
    expect(runProcess(['cases', 'export'])).toEqual({ code: 0, out: '', err: '0 cases exported\n' });
  });
});

it('a job file is read in words, figures with their units', async () => {
  const folder = temporaryFolder();
  const file = path.join(folder, 'part.gcode');
  const sides = Array.from({ length: 50 }, (_, i) => `G1 X${i % 2 === 0 ? 60 : 0} E${2.4 * (i + 1)} F3000`);
  writeFileSync(file, ['M109 S215', 'G28', 'M82', 'G1 Z0.2 F600', ...sides].join('\n'));
  const { code, out } = await run(['job', file, '--nozzle', '0.4', '--polymer', 'pla'], '', folder);
  expect(code).toBe(0);
  expect(out).not.toContain('[object');
  expect(out).toMatch(/^ {2}[A-Z][^:]*: [\d.]+ (?:mm³\/s|mm) – /m);
});
