import { describe, expect, it } from 'vitest';
import { CASE_STATES } from '../../src-core/contract/case-view.ts';
import { MACHINE_STATES } from '../../src-core/knowledge/machine-states-schema.ts';
import { OBSERVATION_KINDS, PLACES } from '../../src-core/knowledge/schema.ts';
import {
  OPEN_STATES,
  PLACE_WORDS,
  STATE_WORDS,
  kindWords,
  machineWords,
  worthWords,
} from '../../src-renderer/wording/case-words.ts';
import { changeSince, rankingSentence } from '../../src-renderer/wording/change-words.ts';
import { conditionValueWords } from '../../src-renderer/wording/condition-words.ts';
import { dateTimeToSecond, percent } from '../../src-renderer/wording/format.ts';
import { inUnit } from '../../src-renderer/wording/words-in.ts';
import { keepTogether } from '../../src-renderer/wording/label-words.ts';
import { inSentence } from '../../src-core/words/in-sentence.ts';
import {
  faultOfNumber,
  isDifferenceQuantity,
  shownNumber,
} from '../../src-renderer/wording/temperature-input.ts';
import { whenWords } from '../../src-renderer/wording/time-words.ts';
import { oddsWords, weightWords } from '../../src-renderer/wording/weight-words.ts';

describe('words for the flow of a case', () => {
  it('has words for every state, place, kind and machine state of the guide', () => {
    for (const state of CASE_STATES) expect(STATE_WORDS[state]).toBeTruthy();
    expect(PLACE_WORDS.map((one) => one.id).toSorted()).toEqual([...PLACES].toSorted());
    for (const kind of OBSERVATION_KINDS) expect(kindWords(kind)).not.toBe(kind);
    for (const machine of MACHINE_STATES) expect(machineWords(machine)).not.toBe(machine);
  });

  it('counts every state but "closed" as open', () => {
    expect(OPEN_STATES.toSorted()).toEqual(CASE_STATES.filter((one) => one !== 'closed').toSorted());
  });

  it('says what a check is worth without negative minutes', () => {
    expect(worthWords(12.4)).toBe('saves about 12 min');
    expect(worthWords(-3)).toBe('costs more than it saves');
  });
});

describe('moves of the ranking', () => {
  it('adds up with the percentages that are shown', () => {
    expect(changeSince(0.624, 0.496)).toEqual({ direction: 'up', points: 12, text: '+12 up' });
    expect(changeSince(0.05, 0.081)).toEqual({ direction: 'down', points: 3, text: '−3 down' });
    expect(changeSince(0.501, 0.499).text).toBe('same');
    expect(changeSince(0.5, null).text).toBe('');
  });

  it('tells the first candidate and its move in one sentence', () => {
    const first = { label: 'Wet filament', probability: 0.62, previousProbability: 0.61 };
    expect(rankingSentence(first, percent)).toBe('Wet filament: 62 %, up 1 point.');
    expect(rankingSentence(undefined, percent)).toBe('Nothing can be said yet.');
  });
});

describe('weights of evidence in words', () => {
  // Jeffreys 1961, appendix B: grades at 10^(1/2), 10, 10^(3/2) and 100 of the likelihood ratio, 5 to 20 decibans.
  it.each([
    [0.4, 'makes no difference'],
    [4.9, 'slightly supports'],
    [5, 'clearly supports'],
    [-9.9, 'clearly speaks against'],
    [10, 'strongly supports'],
    [-19, 'very strongly speaks against'],
    [20, 'all but settles it'],
    [-20, 'all but rules it out'],
  ])('%f decibans %s', (decibans, words) => {
    expect(weightWords(decibans)).toBe(words);
  });

  it('writes factors on the odds so that they are above one', () => {
    expect(oddsWords(3)).toBe('odds × 3');
    expect(oddsWords(0.4)).toBe('odds ÷ 2.5');
  });
});

describe('figures and their units', () => {
  it.each([
    ['PA6, carbon fibre 15 %, 1.75 mm', 'PA6, carbon fibre 15_%, 1.75_mm'],
    ['Dry at 60 to 65 °C for 2 to 8 h', 'Dry at 60 to 65_°C for 2 to 8_h'],
    ['Dry at 140 °F for at least 6 h.', 'Dry at 140_°F for at least 6_h.'],
    ['1 d 6 h 20 min', '1_d 6_h 20_min'],
    ['Leave it for 4 hours on 2 machines', 'Leave it for 4 hours on 2 machines'],
  ])('stay on one line in %j', (text, kept) => {
    expect(keepTogether(text).replaceAll('\u00a0', '_')).toBe(kept);
  });
});

describe('times', () => {
  it('tell two backups of one minute apart', () => {
    const [early, late] = [new Date(2026, 10, 25, 9, 30, 5), new Date(2026, 10, 25, 9, 30, 41)];
    expect(dateTimeToSecond(early.toISOString())).toBe('25 Nov 2026, 09:30:05');
    expect(dateTimeToSecond(late.toISOString())).toBe('25 Nov 2026, 09:30:41');
  });
});

describe('temperatures in the reader’s unit', () => {
  it.each([
    ['Heat above 60 °C and look.', 'Heat above 140 °F and look.'],
    ['the plate at 50 to 110 °C', 'the plate at 122 to 230 °F'],
    ['10 °C hotter is better', '18 °F hotter is better'],
    ['Raise the nozzle by 5 to 10 °C', 'Raise the nozzle by 9 to 18 °F'],
    ['Lower it by another 10 °C.', 'Lower it by another 18 °F.'],
    ['agree within 5 °C when cold', 'agree within 9 °F when cold'],
    ['5 °C or more away from it', '9 °F or more away from it'],
    ['45 °C and more is warm', '113 °F and more is warm'],
    ['The difference is above 15 °C', 'The difference is above 27 °F'],
  ])('%s', (celsius, fahrenheit) => {
    expect(inUnit(celsius, '°F')).toBe(fahrenheit);
    expect(inUnit(celsius, '°C')).toBe(celsius);
    // Below zero, and both scales meet at 40 below.
    expect(inUnit('down to −30 °C, at -40 °C', '°F')).toBe('down to −22 °F, at -40 °F');
  });

  it('scales measured differences without the shift', () => {
    expect(isDifferenceQuantity('Measured nozzle temperature minus displayed temperature')).toBe(true);
    expect(isDifferenceQuantity('Temperature of the upper heat sink')).toBe(false);
    expect(inUnit('Plate error: -12 °C (too cold)', '°F', true)).toBe('Plate error: -22 °F (too cold)');
    expect(inUnit('swings by 2.5 °C either way', '°F')).toBe('swings by 4.5 °F either way');
    const shown = shownNumber({ unit: '°C', min: -80, max: 60 }, '°F', true);
    expect(shown).toMatchObject({ unit: '°F', min: -144, max: 108 });
    expect(shown.toGuide(18)).toBe(10);
  });

  it('shows a condition in the reader’s unit and leaves other units alone', () => {
    const room = {
      id: 'room-temperature',
      label: 'Room',
      formerly: [],
      alsoCalled: [],
      ask: '?',
      number: { unit: '°C', min: -10, max: 60 },
    };
    expect(conditionValueWords(room, 20, '°F')).toBe('68 °F');
    const bore = {
      id: 'nozzle-mm',
      label: 'Bore',
      formerly: [],
      alsoCalled: [],
      ask: '?',
      number: { unit: 'mm', min: 0.1, max: 2 },
    };
    expect(conditionValueWords(bore, 0.4, '°F')).toBe('0.4 mm');
  });
});

describe('typed numbers', () => {
  const shown = shownNumber({ unit: 'mm', min: -0.6, max: 0.6 }, '°C');
  it.each(['0.3', '-0,6', ' 0.6 '])('takes %j', (text) => expect(faultOfNumber(text, shown)).toBeNull());
  it.each(['', 'x', 'NaN', '0.7', 'Infinity', '0x0', '1e-3', '0,1,2'])(
    'refuses %j with the unit in the message',
    (text) => {
      expect(faultOfNumber(text, shown)).toContain('mm');
    },
  );
});

describe('small wordings', () => {
  it('names the day of a moment only when it is not today', () => {
    const today = new Date(2026, 2, 2, 18);
    expect(whenWords(new Date(2026, 2, 2, 9, 5).toISOString(), today)).toBe('09:05');
    expect(whenWords(new Date(2026, 2, 1, 9, 5).toISOString(), today)).toBe('1 Mar, 09:05');
    expect(whenWords(new Date(2025, 11, 31, 9, 5).toISOString(), today)).toBe('31 Dec 2025, 09:05');
  });

  it('leaves abbreviations as they are inside a sentence', () => {
    expect(inSentence('Wet filament')).toBe('wet filament');
    expect(inSentence('PLA too soft')).toBe('PLA too soft');
  });
});
