type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** Kinds of input whose value is picked, not typed: it counts until something was sent. */
const PICKED = ['checkbox', 'radio', 'range', 'file'];

/** What somebody has begun to enter on a screen and has not sent yet. */
export class TypedHere {
  readonly #touched = new Set<Field>();

  /** Somebody typed into this, or picked something. */
  note(target: EventTarget | null): void {
    if (
      target instanceof HTMLInputElement ||
      target instanceof HTMLTextAreaElement ||
      target instanceof HTMLSelectElement
    )
      this.#touched.add(target);
  }

  /** Something was sent: what was picked went with it. Text counts for as long as it stands in its field. */
  sent(): void {
    for (const field of this.#touched) if (isPicked(field)) this.#touched.delete(field);
  }

  get hasAny(): boolean {
    for (const field of this.#touched)
      if (!field.isConnected || field.value.trim() === '') this.#touched.delete(field);
    return this.#touched.size > 0;
  }
}

function isPicked(field: Field): boolean {
  return field instanceof HTMLSelectElement || PICKED.includes(field.type);
}
