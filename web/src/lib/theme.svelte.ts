/** Light or dark: as the machine asks, until the reader says otherwise; the choice is kept in this browser. */

type Shade = 'light' | 'dark';
const kKey = 'sherdwright-shade';

function kept(): Shade | null {
  try {
    const value = localStorage.getItem(kKey);
    return value === 'light' || value === 'dark' ? value : null;
  } catch {
    return null;
  }
}

class Theme {
  #asked = $state<Shade>('light');
  #chosen = $state<Shade | null>(null);

  start(): void {
    const machine = matchMedia('(prefers-color-scheme: dark)');
    this.#asked = machine.matches ? 'dark' : 'light';
    machine.addEventListener('change', (event) => (this.#asked = event.matches ? 'dark' : 'light'));
    this.#chosen = kept();
    this.#show();
  }

  get shade(): Shade {
    return this.#chosen ?? this.#asked;
  }

  turn(): void {
    this.#chosen = this.shade === 'dark' ? 'light' : 'dark';
    try {
      localStorage.setItem(kKey, this.#chosen);
    } catch {
      // Without storage the choice holds until the page is closed.
    }
    this.#show();
  }

  #show(): void {
    if (this.#chosen) document.documentElement.dataset.shade = this.#chosen;
  }
}

export const theme = new Theme();
