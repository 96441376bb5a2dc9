import { expect } from 'vitest';
import { checkKnowledge } from '../../src-core/knowledge/check.ts';
import type { KnowledgeFault } from '../../src-core/knowledge/fault.ts';
import { parseKnowledge, type KnowledgeText } from '../../src-core/knowledge/parse.ts';

/** Circumstances, in a file of their own: a fault has to name the file that it stands in. */
const CIRCUMSTANCES = `topic: Circumstances
conditions:
  - id: polymer
    label: Polymer
    ask: What is printed?
    values:
      - { id: abs, label: ABS }
      - { id: pla, label: PLA }
  - id: nozzle-mm
    label: Nozzle size
    ask: How wide is the bore?
    number: { unit: mm, min: 0.1, max: 2 }
`;

const FAULTS_OF_FEED = `topic: Feed
cautions:
  - id: hot-parts
    label: Hot parts
    hazards: [heat]
    text: Gloves on.
    source: common practice
practices:
  - id: never-cleaned
    label: Never cleaned
    habit: Nobody cleans it.
    better: Clean it weekly.
mechanisms:
  - id: gear-slips
    label: Gear slips
    physics: The teeth lose hold.
    leak: { strength: 0.01, source: estimate }
    shows:
      - { to: thin-lines, strength: 0.6, source: estimate }
causes:
  - id: cause-not-in-guide
    label: Something else
    family: unknown
    summary: Nobody knows.
    prior: { perHundredCases: 2, source: estimate }
    showsAnyComplaint: { strength: rarely, source: estimate }
  - id: teeth-worn
    label: Teeth worn
    family: feed
    summary: Worn down.
    prior: { perHundredCases: 5, source: estimate }
    practices: [never-cleaned]
    movedBy:
      - when: { polymer: abs }
        timesOdds: 2
        because: It is hard.
        source: estimate
    drives:
      - { to: gear-slips, strength: 0.8, source: estimate }
    shows:
      - { to: dust-at-gear, strength: { slight: 0.7, heavy: 0.3 }, source: estimate }
  - id: spring-slack
    label: Spring slack
    family: feed
    summary: Too little hold.
    prior: { perHundredCases: 4, source: estimate }
    shows:
      - { to: grip-force, strength: { low: 0.8, high: 0.05 }, source: estimate }
observations:
  - id: thin-lines
    label: Thin lines
    ask: Are the lines thin?
    kind: sign
    place: walls-and-tops
    complaint: true
    leak: { strength: 0.02, source: estimate }
    check: { how: Look., minutes: 1, machine: any, countsAsPresent: Gaps., nullRulesOut: Little. }
  - id: dust-at-gear
    label: Dust at the gear
    ask: Is there dust?
    kind: sign
    place: spool-and-feed
    grades:
      - { id: none, label: None }
      - { id: slight, label: Slight }
      - { id: heavy, label: Heavy }
    leak: { strength: { slight: 0.02 }, source: estimate }
    check: { how: Look., minutes: 2, machine: cold, countsAsPresent: Dust., nullRulesOut: Little. }
  - id: grip-force
    label: Grip
    ask: How strong is the grip?
    kind: measurement
    place: spool-and-feed
    measure:
      quantity: Force
      unit: N
      min: 0
      max: 100
      bands:
        - { id: normal, label: Normal, from: 20, below: 60 }
        - { id: low, label: Low, below: 20 }
        - { id: high, label: High, from: 60 }
    leak: { strength: { low: 0.02 }, source: estimate }
    check: { how: Pull., minutes: 5, machine: cold, countsAsPresent: Low., nullRulesOut: A lot. }
remedies:
  - id: replace-gear
    label: Replace the gear
    family: feed
    removes:
      - { cause: teeth-worn, chance: 0.9, source: estimate }
    minutes: { handsOn: 20 }
    when: { polymer: [abs, pla] }
    after: [tighten-spring]
    involves: [heat]
    steps:
      - { do: Take it off., cautions: [hot-parts] }
    verify: Lines are full.
    stopAndCall: Thin again.
  - id: tighten-spring
    label: Tighten the spring
    family: feed
    removes:
      - { cause: spring-slack, chance: 0.8, source: estimate }
    minutes: { handsOn: 3 }
    steps:
      - { do: Turn the screw. }
    verify: Grip is back.
    stopAndCall: It turns on.
`;

/** A sound guide of two files, in the writing of an author, small enough to be read as a whole. */
export const HAND_MADE: readonly KnowledgeText[] = [
  { file: 'circumstances.yaml', text: CIRCUMSTANCES },
  { file: 'feed.yaml', text: FAULTS_OF_FEED },
];

/** The guide with one passage of it written otherwise; the passage has to stand there exactly once. */
export function written(before: string, after: string): KnowledgeText[] {
  const times = HAND_MADE.reduce((sum, { text }) => sum + text.split(before).length - 1, 0);
  expect(times, `passages "${before}"`).toBe(1);
  return HAND_MADE.map(({ file, text }) => ({ file, text: text.replace(before, () => after) }));
}

/** What an author gets to read, each with the line of the file that it points at. */
export function faultsOf(
  texts: readonly KnowledgeText[],
): (KnowledgeFault & { readonly pointsAt: string | undefined })[] {
  const { files, faults } = parseKnowledge(texts);
  return [...faults, ...(faults.length === 0 ? checkKnowledge(files) : [])].map((fault) => ({
    ...fault,
    pointsAt: texts.find(({ file }) => file === fault.file)?.text.split('\n')[fault.line - 1],
  }));
}
