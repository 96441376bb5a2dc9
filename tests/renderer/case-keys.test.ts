import { describe, expect, it } from 'vitest';
import { keyAction } from '../../src-renderer/screens/case/questions/case-keys.ts';

const press = (key: string, held: Partial<Record<'ctrlKey' | 'metaKey' | 'altKey', boolean>> = {}) =>
  keyAction({ key, ctrlKey: false, metaKey: false, altKey: false, ...held });

describe('single keys at a question', () => {
  it('counts answers from 1', () => {
    expect(press('1')).toEqual({ kind: 'answer', index: 0 });
    expect(press('9')).toEqual({ kind: 'answer', index: 8 });
    expect(press('0')).toBeNull();
  });

  it.each([
    ['t', 'could-not-tell'],
    ['S', 'skip'],
    ['u', 'undo'],
    ['v', 'verdict'],
    ['/', 'search'],
  ])('%s means %s', (key, kind) => expect(press(key)).toEqual({ kind }));

  it.each(['ctrlKey', 'metaKey', 'altKey'] as const)('leaves presses with %s to the browser', (held) => {
    expect(press('s', { [held]: true })).toBeNull();
    expect(press('1', { [held]: true })).toBeNull();
  });

  it.each(['x', 'Enter', 'Tab', 'ArrowDown', 'F1', '12'])('does nothing on %s', (key) =>
    expect(press(key)).toBeNull(),
  );
});
