import { messages } from '../messages.ts';

export const m = messages('meltZoneWords', {
  extraLongOrSplitFlow: 'Extra long or split flow',
  longMeltZone: 'Long melt zone',
  shortMeltZoneMostDesktopHot: 'Short melt zone (most desktop hot ends)',
});
