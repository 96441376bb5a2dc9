import type { Observation } from '../../knowledge/schema.ts';
import { createTextIndex, tokensOf } from '../text-index.ts';
import type { Unit, WordBook } from '../word-book.ts';
import type { ObservationChip } from './chips.ts';
import type { Clause } from './clauses.ts';
import { fitTexts, type Fit } from './fit-texts.ts';
import { createPhraseSpotter } from './spot-phrases.ts';

/** From here on what was said is taken over; from the second on it is offered. */
const SURE = 0.68;
const SURE_OF_TEXT = 0.62;
const SURE_OF_TEXT_ALONE = 0.7;
const SURE_ALONE = 0.5;
const OFFERED = 0.45;
const OFFERED_BESIDE = 0.55;
/** So much better than the next it must be. */
const CLEAR_BY = 0.07;
const MOST_OFFERED = 3;
/** Things that one clause says at most. */
const MOST_PER_CLAUSE = 3;

/** Reads what is seen, heard or felt from what is left of a clause, as there, not there, or how bad. */
export function createObservationReader(observations: readonly Observation[], book: WordBook) {
  // A measured value needs its number, which is asked for.
  const readable = observations.filter((one) => !one.measure);
  const index = createTextIndex(readable, book);
  const { said } = book.words;
  const tokensFor = (phrases: readonly string[]) =>
    new Set(phrases.flatMap((one) => book.unitsOf(one).map(({ token }) => token)));
  const negations = tokensFor(said.not);
  const isNo = (unit: Unit) => negations.has(unit.token);
  const spotDegree = createPhraseSpotter<'slight' | 'heavy'>(
    [
      ...said.slight.map((phrase) => ({ phrase, means: 'slight' as const })),
      ...said.heavy.map((phrase) => ({ phrase, means: 'heavy' as const })),
    ],
    book,
  );
  const degreeTokens = tokensFor([...said.slight, ...said.heavy]);
  const ruledOut = book.words.ruledOut.map((one) => ({
    ...one,
    tokens: one.words.map((words) => keyOf(book.unitsOf(words))),
  }));

  return (clause: Clause): ObservationChip[] => {
    const ruled = ruledOutIn(clause);
    if (ruled.length > 0) return ruled;
    const chips: ObservationChip[] = [];
    const degree = spotDegree(clause.words).at(-1)?.means[0];
    const add = (fit: Fit, units: readonly Unit[], isSure: boolean) => {
      const observation = readable[fit.entry];
      if (observation) chips.push(chipOf(observation, fit, isDenied(fit, units), degree, isSure, clause));
    };
    for (let round = 0; round < MOST_PER_CLAUSE; round++) {
      const units = clause.units.filter((unit) => !degreeTokens.has(unit.token));
      const fits = fitTexts(index, units).filter(
        (fit) => fit.score >= OFFERED && sameWay(fit, units) && !fit.units.every(isNo),
      );
      const clear = fits.find((fit) => isClear(fit) && !fits.some((other) => rivals(fit, other)));
      if (!clear) {
        // Beside something clear, only what is nearly clear is worth asking about.
        const open = chips.length > 0 ? fits.filter((fit) => fit.score >= OFFERED_BESIDE).slice(0, 1) : fits;
        for (const fit of open.slice(0, MOST_OFFERED)) add(fit, units, false);
        break;
      }
      add(clear, units, true);
      for (const place of clear.places) clause.use(place);
      if (isDenied(clear, units)) for (const unit of units.filter(isNo)) clause.use(unit);
    }
    return chips;
  };

  /** Most of the text was said; one word alone must be nearly all of the text, and most of what was said, too. */
  function isClear({ score, share, textShare, units }: Fit): boolean {
    if (score < SURE) return false;
    const isOneWord = units.filter((unit) => !isNo(unit)).length === 1;
    return isOneWord ? textShare >= SURE_OF_TEXT_ALONE && share >= SURE_ALONE : textShare >= SURE_OF_TEXT;
  }

  /** "First layer sticks" is not "does not stick": what a text denies must be denied in the clause too. */
  function sameWay({ text }: Fit, units: readonly Unit[]): boolean {
    return !text.units.some(isNo) || units.some(isNo);
  }

  /** "No stringing": denied before it or right behind it, and the text itself denies nothing. */
  function isDenied({ text, units: met }: Fit, units: readonly Unit[]): boolean {
    if (text.units.some(isNo)) return false;
    const first = Math.min(...met.filter((unit) => !isNo(unit)).map(({ from }) => from));
    const last = Math.max(...met.map(({ to }) => to));
    const behind = units.find(({ from }) => from >= last);
    return units.some((unit) => isNo(unit) && unit.to <= first) || (behind !== undefined && isNo(behind));
  }

  /** "Not moisture" says that drying changed nothing, or that somebody thinks so: offered only. */
  function ruledOutIn(clause: Clause): ObservationChip[] {
    const { units } = clause;
    const no = units.findIndex(isNo);
    if (no < 0) return [];
    const rest = units.filter((unit, at) => at > no && !book.isLight(unit));
    const key = keyOf(rest);
    const first = rest[0];
    const last = rest.at(-1);
    return ruledOut.flatMap(({ tokens, observation: id }) =>
      first && last && tokens.includes(key)
        ? [
            observationChip(id, 'absent', 0.5, false, clause, [
              { from: units[no]?.from ?? first.from, to: last.to },
            ]),
          ]
        : [],
    );
  }
}

/** Another that says the same words nearly as well leaves it open which is meant. */
function rivals(fit: Fit, other: Fit): boolean {
  return other !== fit && other.score >= fit.score - CLEAR_BY && sharesUnits(fit, other);
}

function chipOf(
  { id, grades }: Observation,
  { score, places }: Fit,
  isDenied: boolean,
  degree: 'slight' | 'heavy' | undefined,
  isSure: boolean,
  clause: Clause,
): ObservationChip {
  const levels = grades?.map((grade) => grade.id) ?? ['absent', 'present'];
  const none = levels[0] ?? 'absent';
  const value = isDenied
    ? none
    : !grades
      ? 'present'
      : degree === undefined
        ? null
        : ((degree === 'heavy' ? levels.at(-1) : levels[1]) ?? null);
  return observationChip(id, value, score, isSure, clause, places);
}

function observationChip(
  id: string,
  value: string | null,
  score: number,
  isSure: boolean,
  clause: Clause,
  places: ObservationChip['places'],
): ObservationChip {
  const from = Math.min(...places.map((place) => place.from));
  const to = Math.max(...places.map((place) => place.to));
  return { kind: 'observation', id, value, said: clause.text.slice(from, to), places, score, isSure };
}

function sharesUnits(a: Fit, b: Fit): boolean {
  return a.units.some((unit) => b.units.some(({ from }) => from === unit.from));
}

function keyOf(units: readonly Unit[]): string {
  return units.map((unit) => tokensOf(unit)[0]).join(' ');
}
