import type { Theme } from '../../src-core/contract/display-choices.ts';
import type { StationProcess } from '../processes/launch-station.ts';

/** Sets the shop's theme, in °C, for the pages that come from now on. */
export async function showIn(station: StationProcess, theme: Theme): Promise<void> {
  const shop = await station.call('shop:read', {});
  if (!shop.ok) throw new Error(shop.error.message);
  const { display: revision } = shop.value.revisions;
  const saved = await station.call('shop:save-display', {
    display: { theme, temperatureUnit: '°C' },
    revision,
  });
  if (!saved.ok) throw new Error(saved.error.message);
}
