import fc from 'fast-check';
import { expect, it } from 'vitest';
import { linesOfFile } from '../../src-renderer/files/lines-of-file.ts';

it('attack 11: cuts a file between its lines, wherever the pieces fall, and counts them on', async () => {
  const line = fc.string({ unit: fc.constantFrom('a', 'é', '\u{1f300}', '"'), maxLength: 12 });
  await fc.assert(
    fc.asyncProperty(
      fc.array(line, { maxLength: 12 }),
      fc.integer({ min: 1, max: 9 }),
      async (lines, bytes) => {
        const lots = [];
        for await (const lot of linesOfFile(new Blob([lines.join('\n')]), bytes)) lots.push(lot);
        // The end of the last line begins no line of its own.
        expect(lots.map(({ text }) => text).join('\n')).toBe(lines.join('\n').replace(/\n$/, ''));
        let number = 1;
        for (const { firstLine, text } of lots) {
          expect(firstLine).toBe(number);
          number += text.split('\n').length;
        }
      },
    ),
  );
});
