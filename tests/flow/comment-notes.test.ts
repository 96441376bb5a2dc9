import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import { JobReader } from '../../src-core/flow/job-reader.ts';
import { polymerNamed, saidInFile } from '../../src-core/flow/said-in-file.ts';
import type { FileNotes } from '../../src-core/flow/comment-notes.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const MOVES = ['G28', 'G1 Z0.2 F600', 'G1 X20 E1 F1200', 'G1 X40 E2'];

function notesOf(...comments: readonly string[]): FileNotes {
  const reader = new JobReader({ filamentDiameterMm: 1.75 });
  reader.push(new TextEncoder().encode([...comments.map((one) => `;${one}`), ...MOVES].join('\n')));
  return reader.end().said;
}

describe('what a job file says of itself', () => {
  it.each([
    [' nozzle diameter = 0.4', { nozzleMm: 0.4 }],
    ['Nozzle size: 0.6 mm', { nozzleMm: 0.6 }],
    ['nozzle_diameter = 0.4,0.4', { nozzleMm: 0.4 }],
    [' filament_diameter = 1.75', { filamentDiameterMm: 1.75 }],
    ['MATERIAL: ABS', { material: 'ABS' }],
    [' filament_type = "PETG"', { material: 'PETG' }],
    ['estimated printing time (normal) = 1h 20m 3s', { seconds: 4803 }],
    ['Print time: 01:20:03', { seconds: 4803 }],
    ['total time = 4803', { seconds: 4803 }],
  ] as const)('"%s" is understood', (comment, said) => {
    expect(notesOf(comment)).toMatchObject(said);
  });

  it.each([
    'nozzle diameter = 40',
    'nozzle temperature = 0.4',
    'filament = 12.5',
    'filament type cost = 20',
    'first layer time = 30',
    'material: see the drawing of part 4711, sheet 2 of 3!',
    'estimated time = a while',
    'nozzle diameter 0.4',
  ])('"%s" says nothing', (comment) => {
    expect(notesOf(comment)).toEqual({
      nozzleMm: null,
      filamentDiameterMm: null,
      material: null,
      profile: null,
      seconds: null,
    });
  });

  it('counts as not said where it is said twice and differently', () => {
    expect(notesOf('nozzle size = 0.4', 'nozzle size = 0.6').nozzleMm).toBeNull();
    expect(notesOf('nozzle size = 0.4', 'nozzle diameter = 0.4').nozzleMm).toBe(0.4);
  });

  it('is found at the end of a long file whose every move is commented, and not in its middle', () => {
    const chatter = Array.from({ length: 9000 }, (_, i) => ` move ${i}`);
    expect(notesOf(...chatter, 'nozzle size = 0.4', ...chatter.slice(0, 100)).nozzleMm).toBe(0.4);
    expect(notesOf(...chatter, 'nozzle size = 0.4', ...chatter).nozzleMm).toBeNull();
  });
});

describe('the name of the print profile', () => {
  it.each([
    ['profile = fine 0.2', 'fine 0.2'],
    ['Print profile: Gehäuse, 4 walls', 'Gehäuse, 4 walls'],
    ['name of the profile = "draft = fast"', 'draft = fast'],
    ['print_settings_profile = strong', 'strong'],
  ])('%s', (comment, name) => expect(notesOf(comment).profile).toBe(name));

  it.each([
    'filament profile = glossy',
    'printer profile: Heron',
    'profile = ',
    'profile: ""',
    'layer height = 0.2',
  ])('%s does not say it', (comment) => expect(notesOf(comment).profile).toBeNull());

  it('is not known where two are named', () =>
    expect(notesOf('profile = fine', 'print profile = draft').profile).toBeNull());
});

describe('held against printer and spool', () => {
  const knowledge = shippedKnowledge();
  const said: FileNotes = {
    nozzleMm: 0.4,
    filamentDiameterMm: 1.75,
    material: 'ABS',
    profile: null,
    seconds: null,
  };
  const machine = { meltZone: null, filamentDiameterMm: 1.75, fillerPercent: null } as const;

  it('a file for another nozzle and material is said, a fitting one clears the nozzle', () => {
    const { readings, remarks } = saidInFile(knowledge, said, { ...machine, nozzleMm: 0.8, polymer: 'petg' });
    expect(readings.map((one) => ({ ...one, because: inEnglish(one.because) }))).toEqual([
      {
        kind: 'finding',
        id: 'nozzle-not-as-in-profile',
        value: 'present',
        because: 'The file was made for a 0.4 mm nozzle; the printer has 0.8 mm.',
      },
    ]);
    expect(remarks.map(({ text }) => inEnglish(text))).toEqual([
      expect.stringMatching(/^The file was made for ABS, and the filament is PETG/),
    ]);
    const fitting = saidInFile(knowledge, said, { ...machine, nozzleMm: 0.4, polymer: 'abs' });
    expect(fitting.readings.map(({ id, value }) => [id, value])).toEqual([
      ['nozzle-not-as-in-profile', 'absent'],
    ]);
    expect(fitting.remarks).toEqual([]);
  });

  it('what neither printer nor spool says is taken from the file', () => {
    const { readings } = saidInFile(knowledge, said, { ...machine, nozzleMm: null, polymer: null });
    expect(readings.map(({ kind, id, value }) => [kind, id, value])).toEqual([
      ['condition', 'nozzle-mm', 0.4],
      ['condition', 'polymer', 'abs'],
    ]);
  });

  it('filament of another diameter is a finding', () => {
    const { readings } = saidInFile(
      knowledge,
      { ...said, filamentDiameterMm: 2.85 },
      { ...machine, nozzleMm: null, polymer: null },
    );
    expect(readings.map(({ id }) => id)).toContain('diameter-set-unlike-filament');
  });

  it.each([
    ['PLA+', 'pla'],
    ['abs', 'abs'],
    ['PA6-CF', 'pa6'],
    ['PETG GF30', 'petg'],
    ['chocolate', undefined],
  ])('%s is %s in the guide', (word, id) => {
    expect(polymerNamed(knowledge, word)?.id).toBe(id);
  });
});
