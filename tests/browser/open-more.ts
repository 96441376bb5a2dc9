import type { Page } from 'playwright-core';

/** Opens what stands behind "More" beside a question, where it is not open yet: it stays as it was left. */
export async function openMore(page: Page): Promise<void> {
  const more = page.getByText('More', { exact: true });
  await more.waitFor();
  if (await more.locator('xpath=..').evaluate((details) => !(details as HTMLDetailsElement).open))
    await more.click();
}
