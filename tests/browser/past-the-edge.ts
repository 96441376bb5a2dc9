import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** What of the screen lies beyond the window, where nobody can scroll: the frame cuts it off, so that the page is no wider for it. */
export function pastTheEdge(): string[] {
  const canScroll = (node: Element): boolean => {
    for (let at = node.parentElement; at; at = at.parentElement)
      if (['auto', 'scroll', 'hidden'].includes(getComputedStyle(at).overflowX)) return true;
    return false;
  };
  const beyond = [...document.querySelectorAll('main *')].filter(
    (node) =>
      node.getBoundingClientRect().right > window.innerWidth + 1 &&
      node.checkVisibility() &&
      !canScroll(node),
  );
  return beyond.slice(0, 3).map((node) => `${node.tagName} ${node.textContent.trim().slice(0, 40)}`);
}

/** Fields that something else lies over once they are scrolled to, as bars do in a low window. */
export function coveredFields(): string[] {
  const fields = [...document.querySelectorAll('main :is(textarea, select, input:not([type=file]))')];
  const covered = fields.slice(0, 60).filter((field) => {
    if (!field.checkVisibility({ visibilityProperty: true })) return false;
    field.scrollIntoView({ block: 'nearest', behavior: 'instant' });
    const { left, top, right, bottom } = field.getBoundingClientRect();
    // Of a field that is higher than the window only what is within it counts.
    const y = (Math.max(top, 0) + Math.min(bottom, window.innerHeight)) / 2;
    const there = document.elementFromPoint((left + right) / 2, y);
    return there !== null && there !== field && !field.contains(there) && !there.contains(field);
  });
  window.scrollTo({ top: 0, behavior: 'instant' });
  return covered.slice(0, 3).map((field) => `${field.tagName} ${field.id}`);
}

/** Looks at the screen as it stands on a phone, and goes back to the size it had: all of it is within the window. */
export async function fitsOnAPhone(page: Page): Promise<void> {
  const before = page.viewportSize() ?? { width: 1280, height: 800 };
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await page.evaluate(pastTheEdge)).toEqual([]);
  await page.setViewportSize(before);
}
