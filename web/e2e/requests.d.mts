export declare const kTyped: Record<'crossed' | 'sound', { side: string; r_mm: number; z_mm: number; conjectured: boolean }[]>;
