declare module 'virtual:guide' {
  interface Heading {
    id: string;
    text: string;
    depth: number;
  }
  export const groups: { title: string; pages: string[] }[];
  export const titles: { name: string; title: string }[];
  export const pages: Record<string, (() => Promise<{ html: string; headings: Heading[] }>) | undefined>;
  export const words: () => Promise<{ pages: { name: string; title: string; sections: { id: string; heading: string; text: string }[] }[] }>;
}
