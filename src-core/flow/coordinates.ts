/**
 * Whether coordinates are absolute (G90) or relative (G91), and E with them (M82, M83). E is relative when either G91 or M83
 * says so. Machines differ in whether a G90 after M83 makes E absolute again, and no standard speaks of E: here the command
 * that speaks of E alone holds, and the reader notes the doubt. The centres of arcs, I and J, are relative unless G90.1 says
 * otherwise.
 */
export class Coordinates {
  isAbsolute = true;
  isExtruderAbsolute = true;
  /** G90.1: I and J are coordinates; otherwise they count from where the arc begins (RS-274/NGC). */
  isCentreAbsolute = false;
  /** G90 came after M83, and neither M82 nor M83 since. */
  isExtruderInDoubt = false;
  private isExtruderSetRelative = false;

  /** G90 or G91. */
  setAll(isAbsolute: boolean): void {
    this.isAbsolute = isAbsolute;
    this.isExtruderAbsolute = isAbsolute && !this.isExtruderSetRelative;
    this.isExtruderInDoubt = isAbsolute && this.isExtruderSetRelative;
  }

  /** M82 or M83. */
  setExtruder(isAbsolute: boolean): void {
    this.isExtruderAbsolute = isAbsolute;
    this.isExtruderSetRelative = !isAbsolute;
    this.isExtruderInDoubt = false;
  }
}
