import type { GivenFile } from '../../api';
import { bytes_of, download } from '../../lib/download';

/** Hands the files of an answer to the reader. */
export function hand_over(files: readonly GivenFile[]): void {
  for (const file of files) download(file.name, bytes_of(file.base64), file.media_type);
}
