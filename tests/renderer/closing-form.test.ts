import { describe, expect, it } from 'vitest';
import {
  ClosingForm,
  forgetClosing,
  unlikelyCauses,
} from '../../src-renderer/screens/case/closing/closing-form.svelte.ts';
import { memoryStore } from './scripted-host.ts';

const suggested = { causes: ['wet-filament'], practices: [], minutesSinceOpened: 24.6 };

/** A form with the amounts filled in. */
function filled(): ClosingForm {
  const form = new ClosingForm(suggested);
  form.minutesLost = '25';
  form.gramsScrapped = '0';
  return form;
}

describe('closing a case', () => {
  it('starts from the suggested causes; what was lost is asked, never guessed', () => {
    const form = new ClosingForm(suggested);
    expect(form.toEvent()).toBeNull();
    expect(form.faultOfMinutes).toContain('how many minutes');
    expect(form.faultOfGrams).toContain('how many grams');
    form.minutesLost = '25';
    form.gramsScrapped = '0';
    expect(form.toEvent()).toEqual({
      kind: 'closed',
      causes: [{ cause: 'wet-filament' }],
      practice: null,
      minutesLost: 25,
      gramsScrapped: 0,
      note: '',
    });
  });

  it('picks no unlikely cause beforehand where nothing was cured', () => {
    const candidate = { label: '', family: 'moisture', previousProbability: null, because: [] };
    const candidates = [
      { ...candidate, cause: 'wet-filament', probability: 0.29 },
      { ...candidate, cause: 'heat-creep', probability: 0.3 },
    ];
    const form = new ClosingForm(
      { ...suggested, causes: ['wet-filament', 'heat-creep'] },
      unlikelyCauses({ candidates }),
    );
    expect(form.causes).toEqual(['heat-creep']);
  });

  it('takes causes of the guide and one in own words together', () => {
    const form = filled();
    form.mark('partial-nozzle-clog', true);
    form.mark('wet-filament', false);
    form.named = '  Cracked tub lid ';
    expect(form.toEvent()?.causes).toEqual([{ cause: 'partial-nozzle-clog' }, { named: 'Cracked tub lid' }]);
  });

  it('does not close without a cause, nor with more than four', () => {
    const form = new ClosingForm({ ...suggested, causes: [] });
    expect(form.toEvent()).toBeNull();
    for (const cause of ['a', 'b', 'c', 'd']) form.mark(cause, true);
    expect(form.faultOfCauses).toBeNull();
    form.named = 'e';
    expect(form.faultOfCauses).toContain('At most 4');
  });

  it.each(['', 'x', '-1', '100001', 'NaN'])('names what is wrong with %j minutes', (text) => {
    const form = new ClosingForm(suggested);
    form.minutesLost = text;
    expect(form.faultOfMinutes).not.toBeNull();
    expect(form.toEvent()).toBeNull();
  });

  it('reads a decimal comma', () => {
    const form = filled();
    form.gramsScrapped = '12,5';
    expect(form.toEvent()?.gramsScrapped).toBe(12.5);
  });

  it('is as it was after a reload, for this case only, until the case is closed', () => {
    const store = memoryStore();
    const before = filled();
    before.mark('heat-creep', true);
    before.named = 'a bent spacer';
    before.note = 'twice this week';
    before.gramsScrapped = '12,5';
    before.keep(store, 'A');
    const after = new ClosingForm(suggested);
    after.restore(store, 'B');
    expect(after.toEvent()).toEqual(new ClosingForm(suggested).toEvent());
    after.restore(store, 'A');
    expect(after.toEvent()).toEqual(before.toEvent());
    forgetClosing(store);
    const fresh = new ClosingForm(suggested);
    fresh.restore(store, 'A');
    expect(fresh.named).toBe('');
    store.setItem('beadwright.closing', '{"caseId":"A","causes":7}');
    fresh.restore(store, 'A');
    expect(fresh.causes).toEqual(['wet-filament']);
  });
});
