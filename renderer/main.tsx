import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './ui/tokens.css';
import './ui/base.css';
import './ui/forms.css';
import { App } from './app/App.tsx';
import { forgetOldDrafts } from './bridge/drafts.ts';
import { followTheme } from './ui/theme.ts';

followTheme();
forgetOldDrafts();
const root = document.getElementById('root');
if (root)
  createRoot(root).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
