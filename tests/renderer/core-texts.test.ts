import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { inEnglish } from '../../src-core/words/in-english.ts';
import {
  celsius,
  celsiusFromTo,
  fixed,
  kelvin,
  type Message,
  type Words,
} from '../../src-core/words/message.ts';
import { fillFigures } from '../../src-core/words/guide-figures.ts';
import { coreTexts } from '../../src-core/words/texts.ts';
import { drillTexts } from '../../src-core/words/en/drills.ts';
import { flowTexts } from '../../src-core/words/en/flow.ts';
import { messageSchema, wordsSchema } from '../../src-core/contract/message.ts';
import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { wordsIn } from '../../src-renderer/wording/words-in.ts';
import { bareLiterals, joinsOfWords, readsAsWords } from './messages/bare-texts.ts';
import { englishTexts } from './messages/english-texts.ts';

const root = path.join(import.meta.dirname, '..', '..');
const catalogues = englishTexts('core');
const sources = ['src-core', 'src-main'].flatMap((side) =>
  readdirSync(path.join(root, side), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.startsWith(path.join('words', 'en')))
    .map((name) => ({
      name: path.join(side, name),
      source: readFileSync(path.join(root, side, name), 'utf8'),
    })),
);

/** Folders and files that say nothing in sentences of their own any more; what is thrown is for whoever reads the log. */
const SAID_BY_MESSAGES: Readonly<
  Record<string, { readonly refuses: readonly string[]; readonly but?: readonly string[] }>
> = {
  'src-core/reports': { refuses: [] },
  'src-core/learning': { refuses: [] },
  'src-core/session': { refuses: [] },
  'src-core/maintenance': { refuses: [] },
  'src-main/operations/standing-conditions.ts': { refuses: [] },
  'src-core/words/guide-figures.ts': { refuses: [] },
  'src-core/moisture/drying-words.ts': { refuses: [] },
  'src-core/training/drills': { refuses: [] },
  'src-core/training': { refuses: [] },
  'src-core/fit': { refuses: [] },
  'src-core/knowledge/unknown-id.ts': { refuses: [] },
  'src-core/photos': { refuses: [] },
  'src-core/planning': { refuses: ['requireNonNegative'] },
  'src-core/recurrence': { refuses: [] },
  'src-main/operations/closed-cases.ts': { refuses: [] },
  'src-main/operations/handlers/maintenance.ts': { refuses: [] },
  'src-main/operations/handlers/recurrence.ts': { refuses: [] },
  'src-main/operations/handlers/reports.ts': { refuses: [] },
  'src-core/moisture/spool-report.ts': { refuses: [] },
  'src-core/contract': { refuses: [], but: ['flow-numbers.ts'] },
  'src-core/contract/calls': { refuses: [] },
  'src-core/spreadsheet': { refuses: [] },
  'src-main/casebook/backup.ts': { refuses: [] },
  'src-main/casebook/file-casebook.ts': { refuses: [] },
  'src-main/casebook/file-trouble.ts': { refuses: [] },
  'src-main/casebook/inspect-database.ts': { refuses: [] },
  'src-main/casebook/migrate.ts': { refuses: [] },
  'src-main/casebook/open-database.ts': { refuses: [] },
  'src-main/casebook/restore.ts': { refuses: [] },
  'src-main/casebook/stored-event.ts': { refuses: [] },
  'src-main/casebook/postgres/dump-folder.ts': { refuses: [] },
  'src-main/casebook/postgres/postgres-casebook.ts': { refuses: [] },
  'src-main/casebook/postgres/postgres-trouble.ts': { refuses: [] },
  'src-main/operations/handlers/backups.ts': { refuses: [] },
  'src-main/desktop/gate.ts': { refuses: [] },
  'src-main/operations/access': { refuses: [] },
  'src-main/operations/dispatcher.ts': { refuses: ['options.log'] },
  'src-main/operations/handlers/access.ts': { refuses: [] },
  'src-main/operations/handlers/network.ts': { refuses: [] },
  'src-main/station/certificates': { refuses: [] },
  'src-main/station/door.ts': { refuses: [] },
  'src-main/station/door-guard.ts': { refuses: [] },
  'src-main/station/file-routes.ts': { refuses: [] },
  'src-main/station/network-door.ts': { refuses: [] },
  'src-main/station/plain-reply.ts': { refuses: [] },
  'src-main/station/request-guard.ts': { refuses: [] },
  'src-main/operations/fault-words.ts': { refuses: [] },
  'src-main/operations/handlers/jobs.ts': { refuses: [] },
  'src-main/operations/handlers/spreadsheets.ts': { refuses: [] },
  'src-main/operations/handlers/transfer.ts': { refuses: [] },
  'src-main/operations/handlers/training.ts': { refuses: [] },
  'src-main/operations/record-checks.ts': { refuses: [] },
  'src-main/operations/spool-parts.ts': { refuses: [] },
  'src-main/operations/handlers/spools.ts': { refuses: [] },
  'src-core/flow': { refuses: ['requirePositive', 'requireAtLeast'] },
};

/** No words: fields and keys of stored data, what databases and browsers are told or say themselves, and names in certificates. */
const NO_WORDS = [
  /^common practice$/,
  /^(?:Column 0|reference 0 of 0)$/,
  /^(?:select|begin|pg_dump|pg_restore) /,
  /^\w+ = \w+$/,
  /^(?:SQLite format 3|Connection terminated|0\/beadwright-\$)/,
  /^(?:Letter|0 mm)$/,
  /^(?:(?:text|application)\/[\w-]+; charset=|private, |bytes [*0]|1 minute$)/,
  /^(?:joining|pin-on-device|device|person) 0/,
  /^(?:Beadwright (?:at 0|station)|-----END CERTIFICATE-----)$/,
];
/** Joins that reach no sentence: what a program reads, keys, stored columns, and names as actions know them. */
const NO_LANGUAGE = [
  'src-core/reports/table-text.ts',
  'src-core/reports/guide-use-report.ts', // numbers of cases, one after the other
  'src-core/fit/filled-facts.ts', // the name of a filled material, and the guide's own texts
  'src-main/operations/closed-cases.ts', // a nozzle's name
];
/** A style sheet, and the marks around what a document says. */
const STYLES = /^\s*:root \{/;
const MARKS = /<[^>]*>|^ class="\w+"$/g;

describe('the texts of the core', () => {
  it('no text of the core has the id of one of the screens: a language has them in one file', () => {
    const ids = [...englishTexts('screens'), ...catalogues].flatMap(({ part, texts }) =>
      [...texts.keys()].map((key) => `${part}.${key}`),
    );
    expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
  });

  it.each(catalogues)(
    '$file parses, is known by its ids, and has nothing that nobody says',
    ({ file, part, texts }) => {
      for (const text of texts.values()) expect(() => parse(text)).not.toThrow();
      for (const text of texts.values()) expect(text).not.toMatch(/\{(?!count,)\w+, *plural/);
      for (const key of texts.keys()) expect(coreTexts.has(`${part}.${key}`)).toBe(true);
      const users = sources
        .filter(({ source }) => source.includes(`/en/${file}'`))
        .map(({ source }) => source);
      expect([...texts.keys()].filter((key) => !new RegExp(`\\b${key}\\b`).test(users.join('\n')))).toEqual(
        [],
      );
    },
  );

  it.each(Object.entries(SAID_BY_MESSAGES))(
    '%s: nothing that people read stands outside the catalogue',
    (place, { refuses, but = [] }) => {
      const found = sources
        .filter(({ name }) => name === path.normalize(place) || path.dirname(name) === path.normalize(place))
        .filter(({ name }) => !but.includes(path.basename(name)))
        .flatMap(({ name, source }) =>
          bareLiterals(source, refuses)
            .filter(
              ({ text }) =>
                !STYLES.test(text) &&
                readsAsWords(text.replaceAll(MARKS, '')) &&
                !NO_WORDS.some((one) => one.test(text.trim())),
            )
            .map(({ line, text }) => `${name}:${line} ${text}`),
        );
      expect(found).toEqual([]);
    },
  );
});

describe('joins of the core', () => {
  it('every text is a whole, but what stands between others', () => {
    const rests = catalogues
      .filter(({ part }) => part !== 'lists')
      .flatMap(({ part, texts }) =>
        [...texts]
          .filter(([, text]) => /^[\s,;:]|\s$/.test(text))
          .map(([key, text]) => `${part}.${key}: “${text}”`),
      );
    expect(rests).toEqual([]);
  });

  const placesDone = Object.keys(SAID_BY_MESSAGES).map((place) => path.normalize(place));
  const joinsOf = (wanted: (name: string) => boolean) =>
    sources
      .filter(({ name }) => placesDone.includes(name) || placesDone.includes(path.dirname(name)))
      .filter(({ name }) => wanted(name))
      .flatMap(({ name, source }) => joinsOfWords(source).map(({ line, text }) => `${name}:${line} ${text}`));

  it('no words are joined but as the reader’s language does it', () => {
    expect(joinsOf((name) => !NO_LANGUAGE.includes(name))).toEqual([]);
    for (const one of NO_LANGUAGE) expect(joinsOf((name) => name === one)).not.toEqual([]);
  });
});

describe('a message of the core', () => {
  const { m } = flowTexts;
  const heats = m.heatsFromTo({ from: celsius(24.6), to: celsius(210), seconds: 130 });
  const told = (words: Words) => wordsIn(words, '°C');
  afterEach(() => speak('en', {}, parse));

  it('is said in English outside the screens, and alike on them', () => {
    const overshoot = m.overshoot({ by: kelvin(9.04, 1) });
    for (const say of [inEnglish, told]) {
      expect(say(heats)).toMatch(/^Heats from 25 °C to 210 °C in 130 s\. /);
      expect(say([overshoot, m.noSteadyPeriod()])).toBe(
        'It went 9.0 °C over the set value on heating up. The swing has no steady period.',
      );
      expect(say(m.jumps({ count: 1 }))).toBe('1 jump faster than metal can change.');
      expect(say('as an earlier version kept it')).toBe('as an earlier version kept it');
    }
  });

  it('comes in the language and the unit of the reader', () => {
    // 210 °C = 410 °F; a difference of 9 K is 16.2 °F (NIST SP 811, B.9).
    expect(wordsIn(heats, '°F')).toMatch(/^Heats from 76 °F to 410 °F/);
    expect(wordsIn(m.overshoot({ by: kelvin(9, 1) }), '°F')).toContain('16.2 °F over');
    const sheet = drillTexts.m.sheetSays({ range: celsiusFromTo(45, 55) });
    expect([inEnglish(sheet), told(sheet)]).toEqual(Array(2).fill('The sheet says 45 to 55 °C.'));
    expect(wordsIn(sheet, '°F')).toBe('The sheet says 113 to 131 °F.');
    expect(messageSchema.parse(sheet)).toEqual(sheet);
    speak(
      'de',
      { 'flow.jumpsFirst': 'nach {seconds} s: {count, plural, one {# Sprung} other {# Sprünge}}' },
      parse,
    );
    expect(told(m.jumpsFirst({ count: 2, seconds: 12.5 }))).toBe('nach 12,5 s: 2 Sprünge');
    expect(told({ id: 'later.unknown' })).toBe('later.unknown');
  });

  it('stands in a text of the guide in the reader’s language and unit, as do the guide’s own figures', () => {
    const source = 'estimate';
    const text = fillFigures('Dry at {drying-temperature}, 10 °C below {drying-limit}; not above 200 °C.', {
      polymer: {
        id: 'pla',
        label: 'PLA',
        kind: 'polymer',
        alsoCalled: [],
        summary: '',
        properties: { dryingTempC: { low: 45, high: 55, unit: '°C', source } },
      },
    });
    expect(wordsSchema.parse(JSON.parse(JSON.stringify(text)))).toEqual(text);
    expect(inEnglish(text)).toMatch(/^Dry at 45 to 55 °C, 10 °C below the temperature at which /);
    // 45 °C = 113 °F; a difference of 10 K is 18 °F.
    expect(wordsIn(text, '°F')).toBe(
      'Dry at 113 to 131 °F, 18 °F below the temperature at which spool or winding softens; not above 392 °F.',
    );
    speak('de', { 'figures.softeningLimit': 'der Erweichung' }, parse);
    expect(told(text)).toContain('10 °C below der Erweichung');
  });

  it('goes over the contract as it is, with others among its values', () => {
    const message: Message = m.pressureFalls({
      nozzleMm: 0.4,
      falls: [
        m.pressureThrough({ percent: 51, boreMm: 0.5 }),
        m.pressureThrough({ percent: 30, boreMm: 0.6 }),
      ],
    });
    const sent = messageSchema.parse(JSON.parse(JSON.stringify(message)));
    expect(inEnglish(sent)).toContain('falls from 0.4 mm to 51 % through 0.5 mm and 30 % through 0.6 mm:');
    expect(messageSchema.safeParse({ id: 'no words' }).success).toBe(false);
    expect(messageSchema.safeParse({ id: 'a.b', values: { x: fixed(1, 99) } }).success).toBe(false);
  });
});
