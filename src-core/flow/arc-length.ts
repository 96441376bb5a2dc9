/** An arc of G2 (turn -1, clockwise) or G3 (turn 1) in the XY plane, by centre offsets or radius. mm. */
export interface Arc {
  readonly turn: -1 | 1;
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
  readonly i: number | null;
  readonly j: number | null;
  readonly r: number | null;
}

/**
 * Length in the plane: radius times angle (NIST RS-274/NGC, 3.5.3). With centre offsets and the same end as beginning it is a
 * whole turn. A negative radius means the longer way round. An arc without centre and radius is taken as straight.
 */
export function arcLengthMm(arc: Arc): number {
  const { fromX, fromY, toX, toY, turn, i, j, r } = arc;
  const chord = Math.hypot(toX - fromX, toY - fromY);
  if (i === null && j === null) {
    if (r === null || r === 0) return chord;
    const radius = Math.max(Math.abs(r), chord / 2);
    const short = 2 * Math.asin(Math.min(1, chord / (2 * radius)));
    return radius * (r < 0 ? 2 * Math.PI - short : short);
  }
  const centreX = fromX + (i ?? 0);
  const centreY = fromY + (j ?? 0);
  const radius = Math.hypot(fromX - centreX, fromY - centreY);
  const begin = Math.atan2(fromY - centreY, fromX - centreX);
  const end = Math.atan2(toY - centreY, toX - centreX);
  let angle = turn * (end - begin);
  if (angle <= 1e-9) angle += 2 * Math.PI;
  if (chord < 1e-9) angle = 2 * Math.PI;
  return radius * angle;
}
