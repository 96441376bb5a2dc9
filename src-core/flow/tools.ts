interface Tool {
  nozzleC: number | null;
  /** Pushed less drawn back so far, and the most it has been, mm. */
  pushedMm: number;
  furthestMm: number;
}

/** The tools of a job: each has its own filament and its own nozzle temperature. The job begins with tool 0. */
export class Tools {
  private readonly tools = new Map<number, Tool>();
  private readonly chosen = new Set<number>();
  private active = this.tool(0);

  choose(number: number): void {
    this.chosen.add(number);
    this.active = this.tool(number);
  }

  /** Set point of the nozzle in use, °C; null before any was given. */
  get nozzleC(): number | null {
    return this.active.nozzleC;
  }

  /** Sets a nozzle: that of the tool named, or the one in use. */
  heat(temperatureC: number, number: number | null): void {
    (number === null ? this.active : this.tool(number)).nozzleC = temperatureC;
  }

  get isSomeHot(): boolean {
    return [...this.tools.values()].some(({ nozzleC }) => nozzleC !== null && nozzleC > 0);
  }

  feed(mm: number): void {
    const { active } = this;
    active.pushedMm += mm;
    if (active.pushedMm > active.furthestMm) active.furthestMm = active.pushedMm;
  }

  /** Filament used by all tools, mm: purges count, and what is drawn back and pushed again counts once. */
  get usedMm(): number {
    return [...this.tools.values()].reduce((sum, { furthestMm }) => sum + furthestMm, 0);
  }

  get numbersChosen(): readonly number[] {
    return [...this.chosen].sort((a, b) => a - b);
  }

  private tool(number: number): Tool {
    const known = this.tools.get(number);
    if (known) return known;
    const fresh = { nozzleC: null, pushedMm: 0, furthestMm: 0 };
    this.tools.set(number, fresh);
    return fresh;
  }
}
