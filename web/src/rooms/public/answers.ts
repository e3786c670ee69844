/** Answers of volunteers as the program reads them. */
export interface AnswerRow {
  picture: string;
  pieces: string;
  part: string;
  grams: string;
}

export function blank_row(): AnswerRow {
  return { picture: '', pieces: '', part: '', grams: '' };
}

export function is_blank(row: AnswerRow): boolean {
  return !row.picture.trim() && !row.pieces.trim() && !row.grams.trim();
}

/** "3:5", "3:5:rim", "3:5::23.5"; rows where nothing stands are left. */
export function answers_of(rows: readonly AnswerRow[]): string[] {
  return rows
    .filter((row) => !is_blank(row))
    .map((row) => {
      const parts = [row.picture, row.pieces, row.part, row.grams].map((one) => one.trim());
      while (parts.length > 2 && parts.at(-1) === '') parts.pop();
      return parts.join(':');
    });
}
