import { describe, expect, it } from 'vitest';
import {
  chanceRight,
  knownAfter,
  knownGiven,
  numbersOf,
  type ItemKind,
} from '../../src-core/training/knowledge-tracing.ts';
import { seededRandom, type Random } from '../../src-core/training/seeded-random.ts';
import {
  countKnown,
  skillsFrom,
  topicThatTeachesMost,
  type Evidence,
} from '../../src-core/training/skill.ts';

const TOPICS = Array.from({ length: 12 }, (_, index) => `topic-${index}`);
const KINDS: readonly ItemKind[] = ['easy', 'middling', 'hard'];

describe('Bayesian knowledge tracing', () => {
  it('gives the worked values of a published example', () => {
    // bkt-study-guide.tyche.institute/en/01-bkt/07-numerical-example: prior 0.2, slip 0.1, guess 0.2, learns 0.1. Right answers
    // only: its rows of wrong answers multiply by 0.9 where its own formula says 1 - 0.2.
    const numbers = { prior: 0.2, slip: 0.1, guess: 0.2, learns: 0.1 };
    for (const [before, given, after] of [
      [0.2, 0.529, 0.576],
      [0.576, 0.859, 0.873],
      [0.49, 0.812, 0.831],
    ] as const) {
      expect(knownGiven(before, true, numbers)).toBeCloseTo(given, 3);
      expect(knownAfter(before, true, numbers)).toBeCloseTo(after, 3);
    }
    // Numbers of a lecture's exercise (prior 0.4, slip 0.3, guess 0.2, learns 0.1), a wrong answer, worked out by hand from the
    // formula of 1995: 0.12 / (0.12 + 0.48) = 0.2, then 0.2 + 0.08.
    const lecture = { prior: 0.4, slip: 0.3, guess: 0.2, learns: 0.1 };
    expect(knownGiven(0.4, false, lecture)).toBeCloseTo(0.2, 12);
    expect(knownAfter(0.4, false, lecture)).toBeCloseTo(0.28, 12);
  });

  it('agrees with summing over every way in which the topic may have been learned', () => {
    const numbers = { prior: 0.3, slip: 0.12, guess: 0.27, learns: 0.21 };
    const answers = [false, true, true, false, true];
    // A topic is had from the start (0), after case 1, 2, … or not at all: chances of each, times those of the answers.
    let had = 0;
    let all = 0;
    for (let from = 0; from <= answers.length + 1; from++) {
      const comes =
        from === 0
          ? numbers.prior
          : (1 - numbers.prior) *
            (1 - numbers.learns) ** (Math.min(from, answers.length + 1) - 1) *
            (from <= answers.length ? numbers.learns : 1);
      const weight = answers.reduce((product, isRight, index) => {
        const right = index >= from ? 1 - numbers.slip : numbers.guess;
        return product * (isRight ? right : 1 - right);
      }, comes);
      all += weight;
      if (from <= answers.length) had += weight;
    }
    const traced = answers.reduce((known, isRight) => knownAfter(known, isRight, numbers), numbers.prior);
    expect(traced).toBeCloseTo(had / all, 12);
  });

  it('keeps the mean: what is expected after looking is what was thought before', () => {
    for (const kind of KINDS)
      for (const known of [0.05, 0.3, 0.8]) {
        const numbers = numbersOf(kind);
        const right = chanceRight(known, numbers);
        const mean =
          right * knownGiven(known, true, numbers) + (1 - right) * knownGiven(known, false, numbers);
        expect(mean).toBeCloseTo(known, 12);
      }
  });
});

/** A trainee who has some topics and not others; cases teach as the model says, and are got right as it says. */
class Trainee {
  readonly has: Set<string>;
  readonly evidence: Evidence[] = [];
  readonly #random: Random;

  constructor(random: Random, share: number) {
    this.#random = random;
    this.has = new Set(TOPICS.filter(() => random() < share));
  }

  solve(topic: string, kind: ItemKind): void {
    const { guess, slip, learns } = numbersOf(kind);
    const isRight = this.#random() < (this.has.has(topic) ? 1 - slip : guess);
    this.evidence.push({ topic, kind, isRight });
    if (this.#random() < learns) this.has.add(topic);
  }
}

function pick<T>(list: readonly T[], random: Random): T {
  const one = list[Math.floor(random() * list.length)];
  if (one === undefined) throw new Error('nothing to pick from');
  return one;
}

describe('simulated trainees of known skill', () => {
  it('come out in the right order', () => {
    const random = seededRandom(20261126);
    let right = 0;
    let pairs = 0;
    for (let round = 0; round < 100; round++) {
      // Without learning between, so that who was better stays better: each topic is asked twice.
      const group = [0.1, 0.5, 0.9].map((share) => {
        const trainee = new Trainee(random, share);
        const had = trainee.has.size;
        for (const topic of TOPICS) {
          trainee.solve(topic, pick(KINDS, random));
          trainee.solve(topic, pick(KINDS, random));
        }
        const chances = skillsFrom(TOPICS, trainee.evidence).map(({ known }) => known);
        return { had, expected: countKnown(chances).expected };
      });
      for (const [index, a] of group.entries())
        for (const b of group.slice(index + 1)) {
          if (Math.abs(a.had - b.had) < 3) continue;
          pairs++;
          if (a.had < b.had === a.expected < b.expected) right++;
        }
    }
    expect(pairs).toBeGreaterThan(200);
    expect(right / pairs).toBeGreaterThan(0.95);
  });

  it('with calibrated chances: of topics said to be had with p, a share p is had', () => {
    const random = seededRandom(7);
    const said: { chance: number; isSo: boolean }[] = [];
    let inside = 0;
    const trainees = 600;
    for (let index = 0; index < trainees; index++) {
      const trainee = new Trainee(random, numbersOf('easy').prior);
      for (let item = 0; item < 30; item++) trainee.solve(pick(TOPICS, random), pick(KINDS, random));
      const skills = skillsFrom(TOPICS, trainee.evidence);
      for (const { topic, known } of skills) said.push({ chance: known, isSo: trainee.has.has(topic) });
      const { low, high } = countKnown(skills.map(({ known }) => known));
      if (trainee.has.size >= low && trainee.has.size <= high) inside++;
    }
    for (let from = 0; from < 1; from += 0.1) {
      const bin = said.filter(({ chance }) => chance >= from && chance < from + 0.1);
      if (bin.length < 80) continue;
      const mean = bin.reduce((sum, { chance }) => sum + chance, 0) / bin.length;
      const share = bin.filter(({ isSo }) => isSo).length / bin.length;
      // Four standard errors.
      expect(Math.abs(share - mean)).toBeLessThan(4 * Math.sqrt((mean * (1 - mean)) / bin.length) + 1e-9);
    }
    // Whole numbers: the band holds 90 % or somewhat more.
    expect(inside / trainees).toBeGreaterThan(0.88);
  });

  it('learn more from cases that are chosen than from cases at random', () => {
    const learned = (isChosen: boolean) => {
      let sum = 0;
      for (let index = 0; index < 400; index++) {
        const random = seededRandom(1000 + index);
        const trainee = new Trainee(random, 0.4);
        const had = trainee.has.size;
        for (let item = 0; item < 24; item++) {
          const topic = isChosen
            ? (topicThatTeachesMost(skillsFrom(TOPICS, trainee.evidence)) ?? '')
            : pick(TOPICS, random);
          trainee.solve(topic, pick(KINDS, random));
        }
        sum += trainee.has.size - had;
      }
      return sum / 400;
    };
    const [chosen, random] = [learned(true), learned(false)];
    console.log(`topics learned in 24 cases: ${chosen.toFixed(2)} chosen, ${random.toFixed(2)} at random`);
    expect(chosen / random).toBeGreaterThan(1.15);
  });
});

it('counts topics exactly: twelve coins', () => {
  const coins = countKnown(TOPICS.map(() => 0.5));
  expect(coins.expected).toBe(6);
  // Binomial(12, 1/2): P(X <= 2) = 0.0193, P(X <= 3) = 0.0730; P(X <= 8) = 0.9270, P(X <= 9) = 0.9807.
  expect([coins.low, coins.high]).toEqual([3, 9]);
});
