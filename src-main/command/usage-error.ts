/** Something wrong with what the caller gave; printed without a stack, exit code 2. */
export class UsageError extends Error {
  /** Whether the command's own words were wrong, so that help is of use. */
  readonly isAboutWords: boolean;

  constructor(message: string, isAboutWords = true) {
    super(message);
    this.isAboutWords = isAboutWords;
  }
}
