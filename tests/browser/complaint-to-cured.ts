import type { Page } from 'playwright-core';
import { openMore } from './open-more.ts';

/** Picks an entry of a searched list. */
export async function chooseFrom(page: Page, field: string, label: string): Promise<void> {
  const box = page.getByRole('combobox', { name: field });
  await box.click();
  await box.fill(label);
  await page.getByRole('option', { name: label, exact: true }).click();
}

const COMPLAINTS = [
  'Popping or spitting while loading',
  'Vapour at the print head',
  'Extruding into mid-air: bubbly or foamy',
];

function expectNone(count: number): void {
  if (count > 0) throw new Error('"Cured" is offered before every complaint was looked at');
}

/** How a page is reached: both hosts use hash addresses below an address of their own. */
export interface Opened {
  readonly page: Page;
  goTo(hash: string): Promise<void>;
}

/**
 * ABS through 0.8 mm, popping while loading, vapour and bubbles: from complaint to "cured", as an operator would go.
 * Returns the address part of the case.
 */
export async function complaintToCured({ page, goTo }: Opened): Promise<string> {
  await goTo('intake');
  for (const [word, label, grade] of [
    ['popping', 'Popping or spitting while loading', 'Heavy'],
    ['vapour', 'Vapour at the print head', 'Slight'],
    ['bubbl', 'Extruding into mid-air: bubbly or foamy', 'Heavy'],
  ] as const) {
    await page.getByLabel('Search what is wrong').fill(word);
    await page.getByRole('checkbox', { name: label }).check();
    await page
      .getByRole('group', { name: `How bad is it: ${label}` })
      .getByRole('button', { name: grade })
      .click();
  }
  await page
    .getByRole('group', { name: 'Which nozzle size is fitted?' })
    .getByRole('radio', { name: '0.8 mm' })
    .check();
  await chooseFrom(page, 'Which material is on the spool?', 'ABS');
  await page.getByRole('button', { name: 'Start', exact: true }).click();

  await page.getByRole('heading', { name: 'Do you see any of these right now?' }).waitFor();
  await page.getByRole('button', { name: 'None of these' }).click();
  await page.getByRole('heading', { name: 'Likely causes' }).waitFor();
  const first = page
    .locator('aside, section')
    .filter({ has: page.getByRole('heading', { name: 'Likely causes' }) });
  await first.getByText('Wet filament').first().waitFor();

  await openMore(page);
  await page.getByRole('button', { name: /^What to do now/ }).click();
  await page.getByText('What to do now', { exact: true }).waitFor();
  // The cheapest cure comes first: for this spool one that brings dry filament to the nozzle.
  const offer = page.getByRole('button', { name: /^Show how/ }).first();
  const remedy = ((await offer.textContent()) ?? '').replace(/^\s*Show how:\s*/, '').trim();
  if (!/\bdr(y|ied)\b/i.test(remedy)) throw new Error(`the first remedy for wet ABS is "${remedy}"`);
  await offer.click();
  await page.getByRole('heading', { name: remedy }).waitFor();
  await page.getByRole('checkbox').first().check();
  await page.getByRole('button', { name: 'Done, verify' }).click();
  // Each complaint is asked for: one that is gone does not cure the case.
  for (const label of COMPLAINTS) await page.getByRole('group', { name: label }).waitFor();
  expectNone(await page.getByRole('button', { name: /^Cured/ }).count());
  for (const label of COMPLAINTS)
    await page.getByRole('group', { name: label }).getByRole('button', { name: 'Gone' }).click();
  await page.getByRole('button', { name: /^Cured/ }).click();

  await page.getByRole('heading', { name: 'What was it?' }).waitFor();
  await page.getByRole('checkbox', { name: 'Wet filament' }).check();
  // What was lost is asked and never filled in by itself.
  await page.getByRole('button', { name: 'Close the case' }).click();
  await page.getByText('Say how many minutes; 0 when none.').waitFor();
  await page.getByLabel('Minutes lost').fill('25');
  await page.getByRole('button', { name: 'None scrapped' }).click();
  await page.getByRole('button', { name: 'Close the case' }).click();
  await page.getByRole('link', { name: 'How it went, step by step' }).waitFor();
  return new URL(page.url()).hash;
}

/** The casebook knows the case: found by words, with the confirmed cause. */
export async function findInCasebook({ page, goTo }: Opened): Promise<void> {
  await goTo('casebook');
  await page.getByRole('searchbox').fill('popping vapour');
  const row = page.getByRole('row').filter({ hasText: 'Popping or spitting while loading' });
  await row.getByText('Wet filament').waitFor();
}
