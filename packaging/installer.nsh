; What the Windows installer adds for the one person it installs for: backups open with Pebblechime.
; The builder's own file associations are for all users of a computer, which takes an administrator.

!macro customInstall
  WriteRegStr HKCU "Software\Classes\.pebblechime" "" "Pebblechime.Backup"
  WriteRegStr HKCU "Software\Classes\.pebblechime\OpenWithProgids" "Pebblechime.Backup" ""
  WriteRegStr HKCU "Software\Classes\Pebblechime.Backup" "" "Pebblechime backup"
  WriteRegStr HKCU "Software\Classes\Pebblechime.Backup\DefaultIcon" "" "$INSTDIR\${APP_EXECUTABLE_FILENAME},0"
  WriteRegStr HKCU "Software\Classes\Pebblechime.Backup\shell\open\command" "" '"$INSTDIR\${APP_EXECUTABLE_FILENAME}" "%1"'
  ; Tells the file manager: SHCNE_ASSOCCHANGED.
  System::Call 'shell32::SHChangeNotify(i 0x08000000, i 0, p 0, p 0)'
!macroend

!macro customUnInstall
  DeleteRegKey HKCU "Software\Classes\Pebblechime.Backup"
  DeleteRegKey HKCU "Software\Classes\.pebblechime"
  System::Call 'shell32::SHChangeNotify(i 0x08000000, i 0, p 0, p 0)'
!macroend
