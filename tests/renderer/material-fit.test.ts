import { describe, expect, it } from 'vitest';
import {
  MaterialFitQuestion,
  MOST_BESIDE,
} from '../../src-renderer/screens/materials/material-fit.svelte.ts';
import { scriptedHost } from './scripted-host.ts';

const question = () =>
  new MaterialFitQuestion(
    scriptedHost(() => ({ ok: false, error: { code: 'internal', message: 'not asked here' } })).host,
  );

describe('materials side by side', () => {
  it('stand in the order of picking, and come off one by one', () => {
    const fits = question();
    for (const polymer of ['abs', 'petg', 'pc']) fits.putBeside(polymer, true);
    expect(fits.beside).toEqual(['abs', 'petg', 'pc']);
    fits.putBeside('petg', false);
    expect(fits.beside).toEqual(['abs', 'pc']);
    fits.putBeside('abs', true);
    expect(fits.beside).toEqual(['pc', 'abs']);
  });

  it('are as many as can be read beside each other: one more changes nothing', () => {
    const fits = question();
    const polymers = ['abs', 'petg', 'pc', 'pla', 'asa'];
    for (const polymer of polymers) fits.putBeside(polymer, true);
    expect(fits.beside).toEqual(polymers.slice(0, MOST_BESIDE));
  });
});
