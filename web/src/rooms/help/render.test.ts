import { describe, expect, it } from 'vitest';
import { address_of, groups_of, id_of, render } from '../../../guide/render';

const kKnown = new Set(['guide/README.md', 'guide/measure.md', 'methods/marks.md', 'commands.md']);

describe('documents as pages of Help', () => {
  it('turn links between documents into addresses and leave those that lead out as words', () => {
    expect(address_of('guide/README.md', 'measure.md#rims', kKnown)).toBe('#/help?page=measure&at=rims');
    expect(address_of('guide/measure.md', '../methods/marks.md', kKnown)).toBe('#/help?page=methods%2Fmarks');
    expect(address_of('methods/marks.md', '../../src/base/text.h', kKnown)).toBeNull();
    const { html } = render('methods/marks.md', '# Marks\n\nSee [the reader](../../src/a.cpp) and [all](../commands.md).', kKnown);
    expect(html).toContain('See the reader and <a href="#/help?page=commands">all</a>');
  });
  it('give every heading an id of its own and the words beneath it', () => {
    const page = render('guide/measure.md', '# Measure\n\nFirst.\n\n## Rims & bases\n\nA *rim*.\n\n## Rims & bases\n\nAgain.', kKnown);
    expect(page.headings.map((one) => one.id)).toEqual(['measure', 'rims-bases', 'rims-bases-1']);
    expect(page.sections.map((one) => one.text)).toEqual(['First.', 'A rim .', 'Again.']);
    expect(page.title).toBe('Measure');
  });
  it('carry no HTML of a document as it stands, and no comment', () => {
    const { html } = render('guide/measure.md', '# M\n\n<!-- printed\nls\n-->\n<script>alert(1)</script>\n\nText <b onclick="x">bold</b>', kKnown);
    expect(html).not.toContain('<script');
    expect(html).not.toContain('<b ');
    expect(html).not.toContain('printed');
  });
  it('make ids as the pages of a repository do', () => {
    expect(id_of('What it can not do')).toBe('what-it-can-not-do');
    expect(id_of('The mapping file (`--columns MAP.json`)')).toBe('the-mapping-file---columns-mapjson');
  });
  it('take the groups from the lists of the contents page', () => {
    expect(groups_of('# Guide\n\n## Begin\n- [First hour](first-hour.md): so\n\n## More\n- [Marks](../methods/marks.md)\n\n## None\n')).toEqual([
      { title: 'Begin', pages: ['guide/first-hour.md'] },
      { title: 'More', pages: ['methods/marks.md'] },
    ]);
  });
});
