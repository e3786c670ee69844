import { describe, expect, test } from 'vitest';
import { told } from './changes';

describe('a change in words', () => {
  test.each([
    ['new SAL26', 'site SAL26 made'],
    ['import sherds demo/sherds.csv', 'sherds read in from sherds.csv'],
    ['import contexts C:\\finds\\my contexts.csv', 'contexts read in from my contexts.csv'],
    ['spot-dates --issue 1', 'list of dates issued, issue 1'],
    ['report --issue 2', 'report issued, issue 2'],
    ['undo 7', 'change 7 taken back'],
  ])('%s', (command, words) => expect(told(command)).toBe(words));

  test('what is not known stands as it is', () => {
    for (const command of ['edit sherds 10087 count', 'import', 'new', '']) expect(told(command)).toBe(command);
  });
});
