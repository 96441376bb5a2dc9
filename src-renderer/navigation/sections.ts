import type { Component } from 'svelte';
import type { IconName } from '../components/Icon.svelte';

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
      { path: 'bench', label: 'Bench', covers: ['bench', 'case', 'printer'] },
      { path: 'intake', label: 'New case', covers: ['intake'] },
    ],
  },
  {
    id: 'lead',
    label: 'Lead',
    short: 'Lead',
    icon: 'lead',
    sections: [
      { path: 'casebook', label: 'Casebook', covers: ['casebook', 'timeline', 'spreadsheet', 'bin'] },
      { path: 'inbox', label: 'Inbox', covers: ['inbox'] },
      {
        path: 'recurrence',
        label: 'What comes back',
        covers: ['recurrence', 'meeting', 'experience', 'guide-use'],
      },
      { path: 'maintenance', label: 'Maintenance', covers: ['maintenance'] },
      { path: 'shop', label: 'Shop', covers: ['shop', 'spool', 'labels', 'printer-codes', 'devices'] },
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
      { path: 'learn', label: 'Course', covers: ['learn', 'drill', 'checklist', 'sign-off'] },
      { path: 'practice', label: 'Practice', covers: ['practice'] },
      { path: 'class', label: 'Class', covers: ['class', 'session', 'vote'] },
    ],
  },
];

type ScreenModule = { readonly default: Component<Record<string, unknown>> };

export interface Screen {
  /** Changes when the screen is to start afresh. */
  readonly key: string;
  readonly title: string;
  /** Brings the screen's code; once it is there, at once. */
  readonly load: () => Promise<ScreenModule>;
  readonly props: Record<string, unknown>;
}

/** The screen of an address; an unknown address leads to the bench. Each is a file of its own in the build. */
export function screenFor(parts: readonly string[]): Screen {
  const [first = 'bench', second = '', third = ''] = parts;
  const show = (
    key: string,
    title: string,
    load: () => Promise<{ readonly default: unknown }>,
    props: Record<string, unknown> = {},
  ): Screen => ({ key, title, load: load as () => Promise<ScreenModule>, props });
  switch (first) {
    case 'intake':
      return show(`intake/${second}`, 'New case', () => import('../screens/intake/IntakeScreen.svelte'), {
        printerId: second,
      });
    case 'case':
      return show(`case/${second}`, 'Case', () => import('../screens/case/CaseScreen.svelte'), {
        caseId: second,
      });
    case 'casebook':
      return show('casebook', 'Casebook', () => import('../screens/casebook/CaseListScreen.svelte'));
    case 'timeline':
      return show(
        `timeline/${second}`,
        'Case timeline',
        () => import('../screens/casebook/TimelineScreen.svelte'),
        { caseId: second },
      );
    case 'inbox':
      return show('inbox', 'Inbox', () => import('../screens/inbox/InboxScreen.svelte'));
    case 'recurrence':
      return show(
        'recurrence',
        'What comes back',
        () => import('../screens/recurrence/RecurrenceScreen.svelte'),
      );
    case 'meeting':
      return show('meeting', 'Monday’s meeting', () => import('../screens/recurrence/MeetingScreen.svelte'));
    case 'experience':
      return show(
        'experience',
        'Own experience',
        () => import('../screens/experience/ExperienceScreen.svelte'),
      );
    case 'guide-use':
      return show(
        'guide-use',
        'The guide in use',
        () => import('../screens/guide-use/GuideUseScreen.svelte'),
      );
    case 'practice':
      return show(
        `practice/${second}`,
        'Practice',
        () => import('../screens/practice/PracticeScreen.svelte'),
        { scenario: second },
      );
    case 'learn':
      return show(`learn/${second}`, 'Course', () => import('../screens/learn/LearnScreen.svelte'), {
        personId: second,
      });
    case 'sign-off':
      return show(`sign-off/${second}`, 'Sign-off', () => import('../screens/learn/SignOffScreen.svelte'), {
        personId: second,
      });
    case 'checklist':
      return show('checklist', 'Checklist', () => import('../screens/learn/ChecklistScreen.svelte'));
    case 'drill':
      return show(`drill/${second}`, 'Drill', () => import('../screens/drills/DrillScreen.svelte'), {
        drill: second,
      });
    case 'class':
      return show('class', 'Class', () => import('../screens/class/ClassScreen.svelte'));
    case 'session':
      return show('session', 'Group session', () => import('../screens/session/SessionScreen.svelte'));
    case 'vote':
      return show('vote', 'Vote', () => import('../screens/vote/VoteScreen.svelte'));
    case 'guide':
      return show(`guide/${second}/${third}`, 'Guide', () => import('../screens/guide/GuideScreen.svelte'), {
        kind: second,
        id: third,
      });
    case 'materials':
      return show('materials', 'Materials', () => import('../screens/materials/MaterialsScreen.svelte'));
    case 'flow':
      return show('flow', 'Flow sheet', () => import('../screens/flow/FlowScreen.svelte'));
    case 'spreadsheet':
      return show(
        'spreadsheet',
        'Old cases from a spreadsheet',
        () => import('../screens/spreadsheet/SpreadsheetScreen.svelte'),
      );
    case 'bin':
      return show('bin', 'Bin', () => import('../screens/casebook/BinScreen.svelte'));
    case 'maintenance':
      return show(
        'maintenance',
        'Maintenance',
        () => import('../screens/maintenance/MaintenanceScreen.svelte'),
      );
    case 'shop':
      return show('shop', 'Shop', () => import('../screens/shop/ShopScreen.svelte'));
    case 'spool':
      return show(`spool/${second}/${third}`, 'Spool', () => import('../screens/spool/SpoolScreen.svelte'), {
        spoolId: second,
        flow: third,
      });
    case 'labels':
      return show(`labels/${second}`, 'Spool labels', () => import('../screens/spool/LabelsScreen.svelte'), {
        spoolId: second,
      });
    case 'printer':
      return show(`printer/${second}`, 'Printer', () => import('../screens/printer/PrinterScreen.svelte'), {
        printerId: second,
      });
    case 'printer-codes':
      return show(
        'printer-codes',
        'Printer codes',
        () => import('../screens/printer/PrinterCodesScreen.svelte'),
      );
    case 'devices':
      return show('devices', 'Devices', () => import('../screens/devices/DevicesScreen.svelte'));
    case 'settings':
      return show('settings', 'Settings', () => import('../screens/settings/SettingsScreen.svelte'));
    default:
      return show('bench', 'Bench', () => import('../screens/bench/BenchScreen.svelte'));
  }
}
