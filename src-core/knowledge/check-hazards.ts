import type { KnowledgeFault } from './fault.ts';
import type { Placed, PlacedLists } from './placed-lists.ts';
import type { Hazard, Observation, Remedy } from './schema.ts';

const SOLVENTS = /\b(acetone|isopropyl|alcohol|solvents?|thinner|spray|degreaser)\b/i;
const INSTRUMENT = '(?:thermometer|hygrometer|logger|phone|camera)s?';
const HOT_SPACE = '(?:oven|dryer|chamber)s?';

/** Words that give a hazard away; what uses one must carry its caution or be worded otherwise. */
const HAZARD_WORDS: readonly { readonly hazard: Hazard; readonly words: RegExp }[] = [
  {
    hazard: 'heat',
    words:
      /\b(oven|hot end|heat (it|the|up|to|plate|both)|heated|dryer|while hot|at (printing )?temperature|preheat|bake|purge \d+ mm|tighten(ed)? hot|soldering iron)\b/i,
  },
  { hazard: 'fumes', words: /\b([Oo]ven|[Cc]old pulls?|[Cc]leaning filament|[Ss]oldering iron)\b/ },
  { hazard: 'solvent', words: SOLVENTS },
  { hazard: 'flammable', words: SOLVENTS },
  {
    hazard: 'fibre-dust',
    words: /\b(sand|sanding|grind|drill|ream|roughen|saw)\b|\bfile .{0,40}\bfib(re|er)/i,
  },
  {
    hazard: 'mains',
    words:
      /\b(mains|power supply|line voltage|open the cover|terminals?|wiring|capacitors?|earthed|earth (lead|pin|wire))\b/i,
  },
  { hazard: 'moving-parts', words: /\b(jog|homing|hand (at|on) the (stop|switch)|rotor)\b/i },
  {
    hazard: 'sharp',
    words:
      /\b(blade|kni(fe|ves)|scrapers?|spatulas?|side cutters|scissors|needles?|deburr|scrape|snip|supports off|clip (it|them|the) off|cut (it|them|off|out|away|back|open|square)|cut the (\w+ )?(tube|filament|tip|end|belt|wire|cable|tie)s?|file a (\w+ )?flat)\b/i,
  },
  {
    hazard: 'lifting',
    words:
      /\b(lift|carry|move|turn over) (the |this )?(whole )?(machine|printer)\b|\b(with )?two people\b|\bsecond person\b/i,
  },
  {
    hazard: 'battery',
    words: new RegExp(
      String.raw`\b(batter(y|ies)|coin cells?)\b|\b${INSTRUMENT}\b[^.]{0,60}\b${HOT_SPACE}\b|\b${HOT_SPACE}\b[^.]{0,60}\b${INSTRUMENT}\b`,
      'i',
    ),
  },
  {
    hazard: 'electrostatic',
    words:
      /\b(plugs?|sockets?|jumpers?|dust)\b[^.]{0,40}\b(control |main )?board\b|\b(new|old|spare|bare) (board|driver)\b|\b(fit|pull|replace|touch) (the |a )?(\w+ )?(board|driver)s?\b|\bjumpers?\b/i,
  },
  {
    hazard: 'glass',
    words: /\bglass\b(?![ -](fib(re|er)|bead|bubbles?|cleaner|epoxy|transition))|\bmirror tiles?\b/i,
  },
  {
    hazard: 'stored-energy',
    words:
      /\b(circlips?|capacitors?)\b|\b(take|pull|prise|unhook|fit|replace|press) (out )?(the |a |its |new |old )*(\w+ )?(springs?(?![ -]steel)|magnets?)\b|\b(gantry|bed|axis) (may|can|could|will|would|cannot) (drop|fall)\b|\b(hold|prop|block|support) (up )?(the |its )?(\w+ )?gantry\b|\b(loosen|undo|take (off|out)|slacken)\b[^.]{0,30}\b(gantry|lead ?screw|coupling|Z belts?)\b/i,
  },
  { hazard: 'hot-water', words: /\b(hot|warm|boiling) water\b|\bwater of \d|\b\d+ °C water/i },
  { hazard: 'failing-part', words: /\b(as in use|put it to use|in its place)\b/i },
];

/** What a state of the machine can hurt with; a check made in it carries a caution for one of these. */
const STATE_HAZARDS: ReadonlyMap<Observation['check']['machine'], readonly Hazard[]> = new Map([
  ['hot', ['heat']],
  ['printing', ['moving-parts', 'heat']],
  ['opened', ['mains', 'moving-parts', 'heat']],
]);

/**
 * Every declared hazard of a remedy or a task of maintenance needs a caution that covers it on some step, and every hazard word its declaration.
 * A check needs a caution for the words of its `how`, for the state of the machine and for a part that is broken.
 */
export function checkHazards(lists: PlacedLists): KnowledgeFault[] {
  const covers = new Map(lists.cautions.map(({ entry }) => [entry.id, entry.hazards]));
  const hazardsOf = (ids: readonly string[]) => new Set(ids.flatMap((id) => covers.get(id) ?? []));
  const work = [
    ...lists.remedies.map((placed) => ({ ...placed, what: 'remedy' })),
    ...lists.maintenanceTasks.map((placed) => ({ ...placed, what: 'maintenance' })),
  ];
  return [...workFaults(work, hazardsOf), ...checkFaults(lists, hazardsOf)];
}

type HazardsOf = (cautions: readonly string[]) => ReadonlySet<Hazard>;

/** Work in steps: a remedy or a task of maintenance. */
interface PlacedWork extends Pick<Placed<'remedies'>, 'at'> {
  readonly entry: Pick<Remedy, 'id' | 'involves' | 'steps'>;
  readonly what: string;
}

function workFaults(work: readonly PlacedWork[], hazardsOf: HazardsOf): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  for (const { entry: remedy, at, what } of work) {
    const covered = hazardsOf(remedy.steps.flatMap((step) => step.cautions));
    for (const hazard of remedy.involves) {
      if (covered.has(hazard)) continue;
      faults.push({
        code: 'missing-caution',
        ...at('involves'),
        message: `${what} "${remedy.id}" involves ${hazard} and no step carries a caution for it`,
        remedy: `put a caution with hazard ${hazard} on the step where it matters`,
      });
    }
    remedy.steps.forEach((step, i) => {
      for (const { hazard, word } of hazardWords(step.do)) {
        if (remedy.involves.includes(hazard)) continue;
        faults.push({
          code: 'undeclared-hazard',
          ...at('steps', i, 'do'),
          message: `a step of ${what} "${remedy.id}" says "${word}"`,
          remedy: `list ${hazard} under "involves" and give the step its caution`,
        });
      }
    });
  }
  return faults;
}

function checkFaults(lists: PlacedLists, hazardsOf: HazardsOf): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  for (const { entry, at } of lists.observations) {
    const { check } = entry;
    const covered = hazardsOf(check.cautions);
    const need = (wanted: readonly Hazard[], place: readonly string[], why: string) => {
      if (wanted.some((hazard) => covered.has(hazard))) return;
      const named = wanted.join(' or ');
      faults.push({
        code: 'missing-caution',
        ...at(...place),
        message: `the check of "${entry.id}" ${why} and carries no caution for ${named}`,
        remedy: `add a caution with hazard ${named} under "cautions"`,
      });
    };
    const ofState = STATE_HAZARDS.get(check.machine);
    if (ofState) need(ofState, ['check', 'machine'], `needs a machine that is ${check.machine}`);
    if (check.destroysPart) need(['sharp'], ['check', 'destroysPart'], 'breaks a part');
    for (const { hazard, word } of hazardWords(check.how)) need([hazard], ['check', 'how'], `says "${word}"`);
  }
  return faults;
}

/** Hazards that a text gives away, each with its first word. */
function hazardWords(text: string): { readonly hazard: Hazard; readonly word: string }[] {
  return HAZARD_WORDS.flatMap(({ hazard, words }) => {
    const word = words.exec(text)?.[0];
    return word === undefined ? [] : [{ hazard, word }];
  });
}
