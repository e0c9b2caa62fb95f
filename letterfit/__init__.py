"""Letterfit: does a comics script's lettering fit its pages?"""
