import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const folder = path.join(import.meta.dirname, '..', '..', 'resources', 'drawings');
const files = readdirSync(folder).sort();
const drawings = files.map((file) => ({
  id: file.replace(/\.svg$/, ''),
  text: readFileSync(path.join(folder, file), 'utf8'),
}));
// What somebody complains of is met first and has its drawing; further signs and hand tests get theirs one after the other.
const drawnObservations = [...shippedKnowledge().observations.values()].filter(
  ({ kind, complaint }) => complaint && (kind === 'sign' || kind === 'hand-test'),
);

const ROOT =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 160 120" fill="none" stroke="currentColor"' +
  ' stroke-width="2.5" stroke-linecap="round" stroke-linejoin="round">';
const PATH = /^ {2}<path((?: [a-z-]+="[^"<>&]*")+) \/>$/;
const SIZE_LIMIT_BYTES = 3000;

/** What is wrong with a drawing, in words; empty when it keeps the house style. */
function faultsOfDrawing(text: string): string[] {
  const faults: string[] = [];
  const lines = text.trimEnd().split('\n');
  if (lines[0] !== ROOT) faults.push('the root differs from the common one');
  if (lines.at(-1) !== '</svg>') faults.push('the root is not closed at the end');
  const shapes = lines.slice(1, -1);
  if (shapes.length === 0) faults.push('nothing is drawn');
  for (const line of shapes) {
    const attributes = PATH.exec(line)?.[1];
    if (attributes === undefined) faults.push(`not a closed path element: ${line.slice(0, 60)}`);
    else faults.push(...faultsOfAttributes(attributes));
  }
  if (Buffer.byteLength(text) >= SIZE_LIMIT_BYTES) faults.push('the file is too large');
  return faults;
}

/** Only these attributes may stand on a path, so no style, link, id or colour can slip in. */
function faultsOfAttributes(attributes: string): string[] {
  const pairs = [...attributes.matchAll(/ ([a-z-]+)="([^"]*)"/g)].map(([, name = '', text = '']) => ({
    name,
    text,
  }));
  const faults = pairs
    .filter(({ name, text }) => {
      if (name === 'd') return !/^M[-\d. MLHVCZlhvcz]+$/.test(text);
      if (name === 'fill') return text !== 'none' && text !== 'currentColor';
      return !(name === 'stroke-opacity' && text === '0.4');
    })
    .map(({ name, text }) => `${name}="${text.slice(0, 40)}" is not allowed`);
  const names = pairs.map(({ name }) => name);
  if (new Set(names).size !== names.length) faults.push('an attribute is given twice');
  if (!names.includes('d')) faults.push('a path has no shape');
  return faults;
}

describe('drawings', () => {
  it('the guide has complaints to draw', () => {
    expect(drawnObservations.length).toBeGreaterThan(100);
  });

  it('every complaint that is a sign or a hand test has a drawing', () => {
    const drawn = new Set(drawings.map(({ id }) => id));
    expect(drawnObservations.map(({ id }) => id).filter((id) => !drawn.has(id))).toEqual([]);
  });

  it('every observation with a drawing says in words what it shows', () => {
    const drawn = new Set(drawings.map(({ id }) => id));
    const observations = [...shippedKnowledge().observations.values()].filter(({ id }) => drawn.has(id));
    const silent = observations.filter(({ drawing }) => !drawing || drawing.trim().length < 10);
    expect(silent.map(({ id }) => id)).toEqual([]);
  });

  it('every file is an SVG that belongs to an observation', () => {
    const { observations } = shippedKnowledge();
    const strays = files.filter(
      (file) => !file.endsWith('.svg') || !observations.has(file.replace(/\.svg$/, '')),
    );
    expect(strays).toEqual([]);
  });

  it.each(drawings)('$id keeps the house style', ({ text }) => {
    expect(faultsOfDrawing(text)).toEqual([]);
  });

  it('no two drawings are identical', () => {
    const firstWithText = new Map<string, string>();
    const twins = drawings.flatMap(({ id, text }) => {
      const earlier = firstWithText.get(text);
      if (earlier === undefined) firstWithText.set(text, id);
      return earlier === undefined ? [] : [`${id} = ${earlier}`];
    });
    expect(twins).toEqual([]);
  });
});

describe('the check of the house style', () => {
  const good = `${ROOT}\n  <path d="M8 8h10v10z" />\n</svg>\n`;

  it('passes a plain drawing', () => {
    expect(faultsOfDrawing(good)).toEqual([]);
  });

  it.each([
    ['a text element', good.replace('<path d="M8 8h10v10z" />', '<text>a</text>')],
    ['a style element', good.replace('<path d="M8 8h10v10z" />', '<style>path{}</style>')],
    ['a script', good.replace('</svg>', '<script>0</script></svg>')],
    ['a style attribute', good.replace(' d=', ' style="fill:red" d=')],
    ['a link', good.replace(' d=', ' href="x" d=')],
    ['an id', good.replace(' d=', ' id="x" d=')],
    ['a colour', good.replace(' d=', ' fill="red" d=')],
    ['an open element', good.replace(' />', '>')],
    ['another frame', good.replace('160 120', '100 100')],
    ['too large a file', good.replace('M8 8', `M8 8${'h1'.repeat(1600)}`)],
  ])('finds %s', (_name, text) => {
    expect(faultsOfDrawing(text)).not.toEqual([]);
  });
});
