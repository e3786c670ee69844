/** A table of its own, compared in place of the record: it stays while the page is open and is nowhere kept. */
class Plain {
  text = $state('');
  name = $state('');

  get given(): boolean {
    return this.text.trim() !== '';
  }
  use(text: string, name: string): void {
    this.text = text;
    this.name = name;
  }
  leave(): void {
    this.use('', '');
  }
}
export const plain_table = new Plain();
