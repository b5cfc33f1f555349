/** What was carried can't be unpacked; `where` names the part, e.g. `tables[3].columns[0]`. */
export class NotPacked extends Error {
  readonly where: string;

  constructor(where: string, what: string) {
    super(what);
    this.where = where;
  }
}

/** Written by a later program, in a form this one does not know. */
export class NewerPacking extends Error {
  readonly version: number;

  constructor(version: number) {
    super(`version ${version}`);
    this.version = version;
  }
}
