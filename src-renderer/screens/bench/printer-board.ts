import type { Bench, OpenCase } from '../../../src-core/contract/bench-view.ts';
import { locale } from '../../messages/language.ts';
import { STATUSES, statusOf, type Status } from '../../wording/status-words.ts';

export interface BoardPrinter {
  readonly id: string;
  readonly label: string;
  readonly note: string;
  readonly status: Status;
  /** Worst first, then the oldest. */
  readonly cases: readonly OpenCase[];
}

export interface Board {
  /** Cases with a danger sign, of a printer or of none. */
  readonly dangers: readonly { readonly printer: string | null; readonly openCase: OpenCase }[];
  /** Worst first; of two alike the one that has waited longer. */
  readonly printers: readonly BoardPrinter[];
  /** Cases of no printer, or of one that is retired, without those in danger. */
  readonly others: readonly OpenCase[];
}

/** What stands on the board: who is in trouble, since when, and whose turn it is. */
export function boardOf({ printers, openCases }: Bench): Board {
  const labels = new Map(printers.map((one) => [one.id, one.label]));
  const byPrinter = Map.groupBy(openCases, (one) => one.printerId);
  return {
    dangers: openCases
      .filter((one) => statusOf(one) === 'danger')
      .map((openCase) => ({ printer: labels.get(openCase.printerId ?? '') ?? null, openCase })),
    printers: printers
      .map(({ id, label, note }) => {
        const cases = (byPrinter.get(id) ?? []).toSorted(worstFirst);
        const [worst] = cases;
        return { id, label, note, status: worst ? statusOf(worst) : ('running' as const), cases };
      })
      .sort(
        (a, b) =>
          STATUSES.indexOf(a.status) - STATUSES.indexOf(b.status) ||
          (a.cases[0]?.openedAt ?? '').localeCompare(b.cases[0]?.openedAt ?? '') ||
          a.label.localeCompare(b.label, locale(), { numeric: true }),
      ),
    others: openCases
      .filter((one) => !labels.has(one.printerId ?? '') && statusOf(one) !== 'danger')
      .toSorted(worstFirst),
  };
}

function worstFirst(a: OpenCase, b: OpenCase): number {
  return (
    STATUSES.indexOf(statusOf(a)) - STATUSES.indexOf(statusOf(b)) || a.openedAt.localeCompare(b.openedAt)
  );
}

/** How many printers stand how, worst first: "1 do not use, 2 in trouble, 3 running". */
export function countByStatus(
  printers: readonly BoardPrinter[],
): readonly { readonly status: Status; readonly count: number }[] {
  return STATUSES.flatMap((status) => {
    const count = printers.filter((one) => one.status === status).length;
    return count > 0 ? [{ status, count }] : [];
  });
}
