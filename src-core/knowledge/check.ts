import { checkFormerIds } from './check-former-ids.ts';
import { checkHazards } from './check-hazards.ts';
import { checkSingles } from './check-singles.ts';
import { checkStrengths } from './check-strengths.ts';
import { checkTraining } from './check-training.ts';
import { checkWords } from './check-words.ts';
import { CAUSE_NOT_IN_GUIDE } from './compile.ts';
import type { KnowledgeFault } from './fault.ts';
import { nearestId } from './nearest-id.ts';
import type { ParsedKnowledgeFile } from './parse.ts';
import { LISTS, placeEntries, type ListName, type PlacedLists } from './placed-lists.ts';
import type { When } from './schema.ts';

/** Faults that only show across files: dangling and doubled ids, orphans, missing cautions, unusable numbers. */
export function checkKnowledge(files: readonly ParsedKnowledgeFile[]): KnowledgeFault[] {
  const lists = placeEntries(files);
  return [
    ...checkDoubles(lists),
    ...checkReferences(lists),
    ...checkOrphans(lists),
    ...checkStrengths(lists),
    ...checkHazards(lists),
    ...checkRemedyOrder(lists),
    ...checkDesiccants(lists),
    ...checkFormerIds(lists),
    ...checkWords(files, lists),
    ...checkSingles(files, lists),
    ...checkTraining(lists),
  ];
}

function checkDoubles(lists: PlacedLists): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  const nodeIds = new Map<string, string>();
  for (const name of LISTS) {
    const seen = new Set<string>();
    for (const { entry, at } of lists[name]) {
      const isNode = name === 'causes' || name === 'mechanisms' || name === 'observations';
      const elsewhere = isNode && !seen.has(entry.id) ? nodeIds.get(entry.id) : undefined;
      if (seen.has(entry.id) || elsewhere) {
        faults.push({
          code: 'doubled-id',
          ...at('id'),
          message: `${name} has "${entry.id}"${elsewhere ? `, which is also among ${elsewhere}` : ' twice'}`,
          remedy: 'rename or remove one of them',
        });
      }
      seen.add(entry.id);
      if (isNode) nodeIds.set(entry.id, name);
    }
  }
  return faults;
}

function checkReferences(lists: PlacedLists): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  const ids = Object.fromEntries(
    LISTS.map((name) => [name, new Set(lists[name].map(({ entry }) => entry.id))]),
  ) as Record<ListName, Set<string>>;
  const mustKnow = (name: ListName, id: string, where: { file: string; line: number }, what: string) => {
    if (ids[name].has(id)) return;
    const near = nearestId(id, ids[name]);
    faults.push({
      code: 'dangling-id',
      ...where,
      message: `${what} names "${id}", which is not among the ${name}`,
      remedy: near ? `did you mean "${near}"?` : `add it to the ${name} or remove the mention`,
    });
  };
  const mustFit = (when: When, at: (key: string) => { file: string; line: number }, what: string) => {
    for (const [id, test] of Object.entries(when)) {
      mustKnow('conditions', id, at(id), what);
      const condition = lists.conditions.find(({ entry }) => entry.id === id)?.entry;
      if (!condition) continue;
      const wanted = typeof test === 'string' ? [test] : Array.isArray(test) ? test : [];
      const allowed = condition.values?.map((value) => value.id) ?? [];
      const isRange = wanted.length === 0;
      if (isRange !== (condition.number !== undefined)) {
        faults.push({
          code: 'bad-test',
          ...at(id),
          message: `${what} tests "${id}" as a ${isRange ? 'number' : 'choice'}`,
          remedy: condition.number
            ? `write {atLeast: …, below: …} in ${condition.number.unit}`
            : `use one of ${allowed.join(', ')}`,
        });
        continue;
      }
      for (const value of wanted.filter((one) => !allowed.includes(one))) {
        const near = nearestId(value, allowed);
        faults.push({
          code: 'dangling-id',
          ...at(id),
          message: `${what} tests "${id}" for "${value}"`,
          remedy: near ? `did you mean "${near}"?` : `use one of ${allowed.join(', ')}`,
        });
      }
    }
  };

  for (const { entry: cause, at } of lists.causes) {
    cause.drives.forEach((link, i) => {
      const where = at('drives', i, 'to');
      if (ids.causes.has(link.to)) faults.push(cycle(where, cause.id, link.to));
      else mustKnow('mechanisms', link.to, where, `cause "${cause.id}"`);
    });
    cause.shows.forEach((link, i) => {
      const where = at('shows', i, 'to');
      if (ids.causes.has(link.to)) faults.push(cycle(where, cause.id, link.to));
      else mustKnow('observations', link.to, where, `cause "${cause.id}"`);
    });
    cause.practices.forEach((id, i) => mustKnow('practices', id, at('practices', i), `cause "${cause.id}"`));
    cause.movedBy.forEach((rule, i) => {
      mustFit(rule.when, (key) => at('movedBy', i, 'when', key), `cause "${cause.id}"`);
      if (rule.unlessKnown !== undefined)
        mustKnow('conditions', rule.unlessKnown, at('movedBy', i, 'unlessKnown'), `cause "${cause.id}"`);
    });
  }
  for (const { entry: mechanism, at } of lists.mechanisms) {
    mechanism.shows.forEach((link, i) => {
      const where = at('shows', i, 'to');
      if (ids.causes.has(link.to) || ids.mechanisms.has(link.to))
        faults.push(cycle(where, mechanism.id, link.to));
      else mustKnow('observations', link.to, where, `mechanism "${mechanism.id}"`);
    });
  }
  for (const { entry: remedy, at } of lists.remedies) {
    remedy.removes.forEach((one, i) =>
      mustKnow('causes', one.cause, at('removes', i, 'cause'), `remedy "${remedy.id}"`),
    );
    remedy.steps.forEach((step, i) =>
      step.cautions.forEach((id, k) =>
        mustKnow('cautions', id, at('steps', i, 'cautions', k), `remedy "${remedy.id}"`),
      ),
    );
    remedy.notWith.forEach((id, i) =>
      mustKnow('observations', id, at('notWith', i), `remedy "${remedy.id}"`),
    );
    remedy.after.forEach((id, i) => mustKnow('remedies', id, at('after', i), `remedy "${remedy.id}"`));
    if (remedy.when) mustFit(remedy.when, (key) => at('when', key), `remedy "${remedy.id}"`);
  }
  for (const { entry: observation, at } of lists.observations) {
    observation.check.cautions.forEach((id, i) =>
      mustKnow('cautions', id, at('check', 'cautions', i), `the check of "${observation.id}"`),
    );
  }
  for (const { entry: table, at } of lists.linkTables) {
    const what = `the link table of "${table.id}"`;
    mustKnow('observations', table.id, at('id'), what);
    for (const id of Object.keys(table.from)) mustKnow('causes', id, at('from', id), what);
  }
  for (const { entry: table, at } of lists.facetTables) {
    const what = `the facet table of "${table.id}"`;
    mustKnow('observations', table.id, at('id'), what);
    if (table.saidBy) mustFit({ [table.saidBy.condition]: table.saidBy.values }, () => at('saidBy'), what);
  }
  for (const { entry: observation, at } of lists.observations) {
    for (const field of ['settles', 'settlesWhenAbsent', 'onlyAbout'] as const)
      observation[field].forEach((id, i) =>
        mustKnow('observations', id, at(field, i), `observation "${observation.id}"`),
      );
    for (const field of ['shownCure', 'saysSameKind', 'seenInTrying'] as const)
      observation[field].forEach((id, i) =>
        mustKnow('remedies', id, at(field, i), `observation "${observation.id}"`),
      );
    if (observation.askedWhen)
      mustFit(observation.askedWhen, (key) => at('askedWhen', key), `observation "${observation.id}"`);
    observation.leadsTo.forEach((id, i) => {
      const isRemedy = lists.remedies.some(({ entry }) => entry.id === id);
      mustKnow(
        isRemedy ? 'remedies' : 'observations',
        id,
        at('leadsTo', i),
        `observation "${observation.id}"`,
      );
    });
  }
  for (const { entry: task, at } of lists.maintenanceTasks) {
    const what = `maintenance "${task.id}"`;
    task.against.forEach((id, i) => mustKnow('causes', id, at('against', i), what));
    task.counts.forEach(({ condition }, i) =>
      mustKnow('conditions', condition, at('counts', i, 'condition'), what),
    );
    task.steps.forEach((step, i) =>
      step.cautions.forEach((id, n) => mustKnow('cautions', id, at('steps', i, 'cautions', n), what)),
    );
    if (task.when) mustFit(task.when, (key) => at('when', key), what);
    task.variants.forEach(({ when }, i) => mustFit(when, (key) => at('variants', i, 'when', key), what));
  }
  for (const { entry, at } of lists.nozzleWear) mustKnow('materials', entry.id, at('id'), 'nozzle wear');
  for (const { entry, at } of lists.water) mustKnow('materials', entry.id, at('id'), 'water data');
  for (const { entry, at } of lists.service) mustKnow('materials', entry.id, at('id'), 'service data');
  for (const { entry, at } of lists.mixtures) mustKnow('materials', entry.id, at('id'), 'what a filler does');
  return faults;
}

function cycle(where: { file: string; line: number }, from: string, to: string): KnowledgeFault {
  return {
    code: 'cycle',
    ...where,
    message: `"${from}" leads back up to "${to}"; links run cause → mechanism → observation only`,
    remedy: 'link to what can be observed, or make a mechanism of what the two share',
  };
}

function checkOrphans(lists: PlacedLists): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  const shown = new Set(
    [...lists.causes, ...lists.mechanisms].flatMap(({ entry }) => entry.shows.map((link) => link.to)),
  );
  const told = new Set([...lists.facetTables, ...lists.linkTables].map(({ entry }) => entry.id));
  const named = new Set(lists.linkTables.flatMap(({ entry }) => Object.keys(entry.from)));
  const driven = new Set(lists.causes.flatMap(({ entry }) => entry.drives.map((link) => link.to)));
  const removed = new Set(lists.remedies.flatMap(({ entry }) => entry.removes.map((one) => one.cause)));
  const report = (code: string, where: { file: string; line: number }, message: string, remedy: string) =>
    faults.push({ code, ...where, message, remedy });
  for (const { entry, at } of lists.observations) {
    if (!shown.has(entry.id) && !told.has(entry.id)) {
      report(
        'unexplained-observation',
        at('id'),
        `nothing causes "${entry.id}"`,
        'name it under "shows" of a cause or mechanism, or remove it',
      );
    }
  }
  for (const { entry, at } of lists.mechanisms) {
    if (!driven.has(entry.id)) {
      report(
        'undriven-mechanism',
        at('id'),
        `nothing drives "${entry.id}"`,
        'name it under "drives" of a cause, or remove it',
      );
    }
  }
  for (const { entry, at } of lists.causes) {
    if (entry.id === CAUSE_NOT_IN_GUIDE) continue;
    if (entry.shows.length === 0 && entry.drives.length === 0 && !named.has(entry.id)) {
      report(
        'unobservable-cause',
        at('id'),
        `nothing shows "${entry.id}"`,
        'say under "shows" or "drives" how it would be noticed',
      );
    }
    if (!removed.has(entry.id)) {
      report(
        'irremediable-cause',
        at('id'),
        `no remedy removes "${entry.id}"`,
        'name it under "removes" of a remedy',
      );
    }
  }
  if (!lists.causes.some(({ entry }) => entry.id === CAUSE_NOT_IN_GUIDE)) {
    report(
      'no-leak',
      { file: 'knowledge', line: 1 },
      `the guide lacks "${CAUSE_NOT_IN_GUIDE}"`,
      'add it: a list that cannot say "none of these" misleads',
    );
  }
  return faults;
}

/** No remedy comes after itself, by whatever way round. */
function checkRemedyOrder({ remedies }: PlacedLists): KnowledgeFault[] {
  const before = new Map(remedies.map(({ entry }) => [entry.id, entry.after]));
  return remedies.flatMap(({ entry, at }): KnowledgeFault[] => {
    // Grows while it is walked.
    const reached = new Set(entry.after);
    for (const id of reached) for (const next of before.get(id) ?? []) reached.add(next);
    if (!reached.has(entry.id)) return [];
    const message = `remedy "${entry.id}" comes after itself`;
    return [{ code: 'remedies-in-a-ring', ...at('after'), message, remedy: 'take one of the "after" out' }];
  });
}

/** An isotherm rises: more humid air, more water held. */
function checkDesiccants(lists: PlacedLists): KnowledgeFault[] {
  return lists.desiccants.flatMap(({ entry, at }) =>
    entry.holds.flatMap((point, i): KnowledgeFault[] => {
      const before = entry.holds[i - 1];
      if (!before || (point.atPercentRh > before.atPercentRh && point.gPer100g >= before.gPer100g)) return [];
      const message = `"${entry.id}" holds less, or at no higher humidity, than in the point before`;
      return [
        {
          code: 'falling-isotherm',
          ...at('holds', i),
          message,
          remedy: 'list the points from dry to humid air',
        },
      ];
    }),
  );
}
