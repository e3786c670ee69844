/** What a change did, in words for a reader who has no command line before him; a command not known here stands as it is. */
export function told(command: string): string {
  const [name = '', ...words] = command.split(' ');
  const file = (path: string | undefined) => (path ?? '').replace(/^.*[\\/]/, '');
  switch (name) {
    case 'new':
      return words[0] ? `site ${words[0]} made` : command;
    case 'import':
      return words.length >= 2 ? `${words[0]} read in from ${file(words.slice(1).join(' '))}` : command;
    case 'spot-dates':
      return words[0] === '--issue' && words[1] ? `list of dates issued, issue ${words[1]}` : command;
    case 'report':
      return words[0] === '--issue' && words[1] ? `report issued, issue ${words[1]}` : command;
    case 'undo':
      return words[0] ? `change ${words[0]} taken back` : command;
    default:
      return command;
  }
}
