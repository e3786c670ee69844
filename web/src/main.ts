import './fonts.css';
import './colours.css';
import './page.css';
import './figures.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { router } from './lib/route.svelte';
import { theme } from './lib/theme.svelte';

theme.start();
router.start();

const place = document.getElementById('workbench');
if (!place) throw new Error('index.html has no element "workbench"');
mount(App, { target: place });
