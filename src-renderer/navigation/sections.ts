import type { Component } from 'svelte';
import type { IconName } from '../components/Icon.svelte';
import SettingsScreen from '../screens/settings/SettingsScreen.svelte';
import BenchScreen from '../screens/bench/BenchScreen.svelte';
import CaseListScreen from '../screens/casebook/CaseListScreen.svelte';
import CaseScreen from '../screens/case/CaseScreen.svelte';
import GuideScreen from '../screens/guide/GuideScreen.svelte';
import FlowScreen from '../screens/flow/FlowScreen.svelte';
import MaterialsScreen from '../screens/materials/MaterialsScreen.svelte';
import IntakeScreen from '../screens/intake/IntakeScreen.svelte';
import PracticeScreen from '../screens/practice/PracticeScreen.svelte';
import RecurrenceScreen from '../screens/recurrence/RecurrenceScreen.svelte';
import LabelsScreen from '../screens/spool/LabelsScreen.svelte';
import SpoolScreen from '../screens/spool/SpoolScreen.svelte';
import ShopScreen from '../screens/shop/ShopScreen.svelte';
import TimelineScreen from '../screens/casebook/TimelineScreen.svelte';

export interface Section {
  readonly path: string;
  readonly label: string;
  /** First parts of the addresses that belong to it. */
  readonly covers: readonly string[];
}

/** The three places of the program, by who stands there, and the sections of each. */
export const PLACES: readonly {
  readonly id: string;
  readonly label: string;
  /** Where there is no room for more. */
  readonly short: string;
  readonly icon: IconName;
  readonly sections: readonly [Section, ...Section[]];
}[] = [
  {
    id: 'machine',
    label: 'At the machine',
    short: 'Machine',
    icon: 'machine',
    sections: [
      { path: 'bench', label: 'Bench', covers: ['bench', 'case'] },
      { path: 'intake', label: 'New case', covers: ['intake'] },
    ],
  },
  {
    id: 'lead',
    label: 'Lead',
    short: 'Lead',
    icon: 'lead',
    sections: [
      { path: 'casebook', label: 'Casebook', covers: ['casebook', 'timeline'] },
      { path: 'recurrence', label: 'What comes back', covers: ['recurrence'] },
      { path: 'shop', label: 'Shop', covers: ['shop', 'spool', 'labels'] },
    ],
  },
  {
    id: 'learn',
    label: 'Learn and look up',
    short: 'Look up',
    icon: 'learn',
    sections: [
      { path: 'guide', label: 'Guide', covers: ['guide'] },
      { path: 'materials', label: 'Materials', covers: ['materials'] },
      { path: 'flow', label: 'Flow sheet', covers: ['flow'] },
      { path: 'practice', label: 'Practice', covers: ['practice'] },
    ],
  },
];

export interface Screen {
  /** Changes when the screen is to start afresh. */
  readonly key: string;
  readonly title: string;
  readonly component: Component<Record<string, unknown>>;
  readonly props: Record<string, unknown>;
}

/** The screen of an address; an unknown address leads to the bench. */
export function screenFor(parts: readonly string[]): Screen {
  const [first = 'bench', second, third] = parts;
  const show = (
    key: string,
    title: string,
    component: unknown,
    props: Record<string, unknown> = {},
  ): Screen => ({
    key,
    title,
    component: component as Component<Record<string, unknown>>,
    props,
  });
  switch (first) {
    case 'intake':
      return show(`intake/${second ?? ''}`, 'New case', IntakeScreen, { printerId: second ?? '' });
    case 'case':
      return show(`case/${second ?? ''}`, 'Case', CaseScreen, { caseId: second ?? '' });
    case 'casebook':
      return show('casebook', 'Casebook', CaseListScreen);
    case 'timeline':
      return show(`timeline/${second ?? ''}`, 'Case timeline', TimelineScreen, { caseId: second ?? '' });
    case 'recurrence':
      return show('recurrence', 'What comes back', RecurrenceScreen);
    case 'practice':
      return show('practice', 'Practice', PracticeScreen);
    case 'guide':
      return show(`guide/${second ?? ''}/${third ?? ''}`, 'Guide', GuideScreen, {
        kind: second ?? '',
        id: third ?? '',
      });
    case 'materials':
      return show('materials', 'Materials', MaterialsScreen);
    case 'flow':
      return show('flow', 'Flow sheet', FlowScreen);
    case 'shop':
      return show('shop', 'Shop', ShopScreen);
    case 'spool':
      return show(`spool/${second ?? ''}`, 'Spool', SpoolScreen, { spoolId: second ?? '' });
    case 'labels':
      return show(`labels/${second ?? ''}`, 'Spool labels', LabelsScreen, { spoolId: second ?? '' });
    case 'settings':
      return show('settings', 'Settings', SettingsScreen);
    default:
      return show('bench', 'Bench', BenchScreen);
  }
}
