import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { knownToFail } from '../../src-core/knowledge/conditions.ts';
import { demoCases } from '../../src-core/training/demo-cases.ts';
import { demoShopSchema } from '../../src-core/training/demo-shop.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const demo = demoShopSchema.parse(
  parse(readFileSync(path.join(import.meta.dirname, '../../resources/demo-shop.yaml'), 'utf8')),
);

it('the demo year asks nothing that people only tell, that is about another trouble or that the machine does not have', () => {
  const year = demoCases(knowledge, demo, { printers: [], spools: [] }, Date.UTC(2026, 2, 1));
  const senseless = year.flatMap(({ log }) => {
    const [first] = log;
    if (first?.event.kind !== 'opened') return ['no opening'];
    const { conditions, complaints } = first.event.intake;
    const told = new Set(complaints.map(({ observation }) => observation));
    return log.flatMap(({ event }) => {
      const asked = event.kind === 'answered' ? knowledge.observations.get(event.observation) : undefined;
      const isSensible =
        asked === undefined ||
        (!asked.danger &&
          !asked.onlyWhenLedTo &&
          (asked.onlyAbout.length === 0 || asked.onlyAbout.some((id) => told.has(id))) &&
          !(asked.askedWhen && knownToFail(asked.askedWhen, conditions)));
      return isSensible ? [] : [`${[...told].join(', ')}: ${asked.id}`];
    });
  });
  expect(year.length).toBeGreaterThan(100);
  expect(senseless).toEqual([]);
}, 60_000);
